import type { Step } from '../../../engine/index.ts';
import type { Canvas, FieldPlace } from '../../pdf/canvas.ts';
import { printable } from '../../pdf/face.ts';
import { drawLines, type Lines, type Setter, STYLES } from '../../pdf/setter.ts';

/** A box to write into with the name of the reading above it inside and its unit behind. */
export interface Writing {
  readonly field: Pick<FieldPlace, 'name' | 'label' | 'kind'>;
  readonly label: Lines;
  readonly unit: Lines;
  readonly unitWidth: number;
}

export const FIELD_HEIGHT = 21;
const LINES_HEIGHT = 64;

export function writing(
  setter: Setter,
  field: Writing['field'],
  label: string,
  unit: string | undefined,
  width: number,
): Writing {
  const { face, size } = STYLES.note;
  const unitText = printable(unit ?? '', setter.faces[face]);
  const unitWidth = unitText === '' ? 0 : Math.min(setter.faces[face].widthOf(unitText, size) + 3, width / 2);
  return {
    field,
    label: setter.lines(label, STYLES.small, width),
    unit: setter.lines(unit ?? '', STYLES.note, unitWidth),
    unitWidth,
  };
}

export function writingHeight({ label, field }: Writing): number {
  return label.height + boxHeight(field) + 2;
}

function boxHeight({ kind }: Writing['field']): number {
  return kind === 'lines' ? LINES_HEIGHT : FIELD_HEIGHT;
}

export function drawWriting(canvas: Canvas, each: Writing, x: number, top: number, width: number): void {
  // Label and unit are in the field's own words for those who do not see them.
  drawLines(canvas, each.label, x, top);
  const height = boxHeight(each.field);
  const y = top - each.label.height - height;
  canvas.field({ ...each.field, x, y, width: width - each.unitWidth, height });
  const middle = y + height / 2 + each.unit.height / 2;
  drawLines(canvas, each.unit, x + width - each.unitWidth + 2, middle);
}

/** A field with the words of its step, for those who do not see the page. */
export function fieldOf(
  step: Step,
  name: string,
  label: string,
  kind: Writing['field']['kind'] = 'text',
): Writing['field'] {
  const unit = step.unit === undefined ? '' : `, in ${step.unit}`;
  return { name, kind, label: `${step.text}${label === '' ? '' : ` ${label}`}${unit}` };
}
