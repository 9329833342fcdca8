import { formFieldsOf, type Step } from '../../../engine/index.ts';
import type { Block } from '../../pdf/flow.ts';
import { drawLines, drawText, inPieces, type Setter, STYLES } from '../../pdf/setter.ts';
import { ENTRY, GAP, LIMIT, TICK, taskRows } from './task-row.ts';
import { drawWriting, FIELD_HEIGHT, fieldOf, writing } from './writing.ts';

/** The rows of one step: one as a rule. */
export function stepRows(setter: Setter, step: Step, head: Block): readonly Block[] {
  switch (step.kind) {
    case 'caution':
      return cautionRows(setter, step, head);
    case 'hold':
      return [{ ...holdRow(setter, step), head }];
    default:
      return taskRows(setter, step, head);
  }
}

/** Head of a table of steps, repeated on each page. */
export function tableHead(setter: Setter, isSettings: boolean): Block {
  const { x, width } = setter.column;
  const names: readonly (readonly [string, number])[] = [
    [isSettings ? 'Set' : 'Done', x + 2],
    [isSettings ? 'Setting' : 'Step', x + TICK + GAP],
    [isSettings ? 'Planned, and allowed' : 'Expected or allowed', x + width - ENTRY - LIMIT],
    [isSettings ? 'As left' : 'Reading', x + width - ENTRY],
  ];
  return {
    height: 13,
    draw: (canvas, top) => {
      canvas.tagged('P', () => {
        for (const [name, at] of names) drawLines(canvas, setter.lines(name, STYLES.smallStrong, 100), at, top - 1);
      });
      canvas.rule(x, top - 12, width, 1);
    },
  };
}

function cautionRows(setter: Setter, { text, source }: Step, head: Block): readonly Block[] {
  const { x, width } = setter.column;
  const words = `Caution. ${text}${source === undefined ? '' : ` (${source})`}`;
  return inPieces(setter.lines(words, STYLES.strong, width - 18)).map((lines) => ({
    height: lines.height + 9,
    staysWithNext: true,
    head,
    draw: (canvas, top) => {
      const box = { x, y: top - lines.height - 7, width, height: lines.height + 6 };
      canvas.frame(box, 1.2);
      canvas.fill({ ...box, width: 5 });
      drawText(canvas, 'P', lines, x + 11, top - 4);
    },
  }));
}

function holdRow(setter: Setter, step: Step): Block {
  const { x, width } = setter.column;
  const lines = setter.lines(step.text, STYLES.strong, width - 12);
  const id = setter.lines(step.id, STYLES.small, width - 12);
  const [by, at] = formFieldsOf(step);
  const third = (width - 24) / 3;
  const places = [by, at].map((field) =>
    writing(setter, fieldOf(step, field?.name ?? '', field?.label ?? ''), field?.label ?? '', undefined, third),
  );
  const signature = setter.lines('Signature, on paper', STYLES.small, third);
  const height = lines.height + id.height + FIELD_HEIGHT + 24;
  return {
    height,
    draw: (canvas, top) => {
      canvas.frame({ x, y: top - height + 4, width, height: height - 6 }, 1.8);
      drawText(canvas, 'P', lines, x + 6, top - 6);
      const under = top - 8 - lines.height;
      places.forEach((each, index) => {
        drawWriting(canvas, each, x + 6 + index * (third + 6), under, third);
      });
      const right = x + 6 + 2 * (third + 6);
      drawLines(canvas, signature, right, under);
      canvas.rule(right, under - 8 - FIELD_HEIGHT, third, 0.8);
      drawLines(canvas, id, x + 6, under - FIELD_HEIGHT - 11);
    },
  };
}
