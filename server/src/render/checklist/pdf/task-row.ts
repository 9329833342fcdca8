import { formFieldName, formFieldsOf, type Step } from '../../../engine/index.ts';
import type { Canvas, TextStyle } from '../../pdf/canvas.ts';
import type { Block } from '../../pdf/flow.ts';
import { drawLines, drawText, inPieces, type Lines, type Setter, STYLES } from '../../pdf/setter.ts';
import { limitText, plannedText } from '../words.ts';
import { drawWriting, fieldOf, type Writing, writing, writingHeight } from './writing.ts';

/** Widths of the columns besides the step's text, in points. */
export const TICK = 24;
export const LIMIT = 104;
export const ENTRY = 112;
export const GAP = 4;
const BOX = 15;
const NOTE_HEIGHT = 15;
/** More readings than this stand in a grid below the step's text. */
const FEW_FIELDS = 3;
const MOST_IN_ROW = 9;

/** Where the boxes of a row stand: in so many columns from `x` on, each of a width. */
interface Arrangement {
  readonly x: number;
  readonly columns: number;
  readonly width: number;
  /** Below the step's text rather than beside it. */
  readonly isBelow: boolean;
}

/** What a row shows, measured. */
interface Row {
  readonly step: Step;
  readonly texts: readonly Lines[];
  readonly textX: number;
  readonly limits: readonly Lines[];
  readonly limitX: number;
  readonly entries: readonly Writing[];
  readonly boxes: Arrangement;
  readonly hasNote: boolean;
}

/** The rows of a step that is done, read or set: one as a rule, more for a text that is too long for one. */
export function taskRows(setter: Setter, step: Step, head: Block): readonly Block[] {
  const row = measured(setter, step);
  const [text, ...rest] = row.texts;
  const pieces = text === undefined ? [] : inPieces(text);
  const before = pieces.slice(0, -1).map((lines) => ({
    height: lines.height,
    head,
    draw: (canvas: Canvas, top: number) => drawText(canvas, 'P', lines, row.textX, top),
  }));
  return [...before, rowBlock(setter, { ...row, texts: [...pieces.slice(-1), ...rest] }, head)];
}

function measured(setter: Setter, step: Step): Row {
  const { x, width } = setter.column;
  const fields = formFieldsOf(step).filter(({ part }) => part !== 'done');
  const limit = limitTexts(step);
  const textX = x + TICK + GAP;
  const boxes = arranged(setter, step, fields.length, limit.length > 0);
  const isGrid = boxes.isBelow;
  const right = isGrid || fields.length === 0 ? x + width : boxes.x;
  const limitX = limit.length > 0 ? right - LIMIT : right;
  const entries = fields.map(({ name, label }) =>
    writing(
      setter,
      fieldOf(step, name, label, step.prose ? 'lines' : 'text'),
      label,
      isGrid ? undefined : step.unit,
      boxes.width,
    ),
  );
  return {
    step,
    texts: stepTexts(step, isGrid).map(([text, style]) => setter.lines(text, style, limitX - textX - GAP)),
    textX,
    limits: limit.map((text) => setter.lines(text, STYLES.strong, LIMIT - GAP)),
    limitX,
    entries,
    boxes,
    hasNote: step.kind === 'set' || (step.kind === 'read' && step.unit !== undefined && !isGrid),
  };
}

/** Many readings stand below the text, a few beside it where no limit stands there, else one above the other. */
function arranged(setter: Setter, { id, prose }: Step, fields: number, hasLimit: boolean): Arrangement {
  const { x, width } = setter.column;
  const right = x + width;
  if (fields > FEW_FIELDS || prose === true || id === 'cover.crew') {
    const columns = Math.min(fields, MOST_IN_ROW);
    const from = x + TICK + GAP;
    return { x: from, columns, width: (right - from) / columns - 3, isBelow: true };
  }
  if (fields < 2 || hasLimit) return { x: right - ENTRY, columns: 1, width: ENTRY, isBelow: false };
  const wide = ENTRY + LIMIT;
  return { x: right - wide, columns: fields, width: wide / fields - 3, isBelow: false };
}

function stepTexts(step: Step, isGrid: boolean): readonly (readonly [string, TextStyle])[] {
  const { text, note, source, id, unit } = step;
  const basis = source === undefined ? undefined : `Source: ${source}.`;
  const inUnit = isGrid && unit !== undefined ? `In ${unit}.` : undefined;
  const words = [inUnit, note, basis].filter((each) => each !== undefined).join(' ');
  return [
    [text, STYLES.text],
    [words, STYLES.note],
    [id, STYLES.small],
  ];
}

function limitTexts(step: Step): readonly string[] {
  const planned = plannedText(step);
  const limit = limitText(step.limit, step.unit);
  const name = step.planned === undefined ? 'expected' : 'planned';
  const missing = step.kind === 'set' && planned === '' ? ['not in the file'] : [];
  return [...(planned === '' ? missing : [`${name} ${planned}`]), ...(limit === '' ? [] : [limit])];
}

function rowBlock(setter: Setter, row: Row, head: Block): Block {
  const text = heightOf(row.texts) + (row.hasNote ? NOTE_HEIGHT + 3 : 0);
  const boxes = boxesHeight(row);
  const beside = Math.max(text, heightOf(row.limits), row.boxes.isBelow ? 0 : boxes, BOX + 4);
  const height = beside + (row.boxes.isBelow ? boxes + 3 : 0) + 8;
  return { height, head, draw: (canvas, top) => drawRow(canvas, setter, row, top, height) };
}

function heightOf(lines: readonly Lines[]): number {
  return lines.reduce((total, { height }) => total + height, 0);
}

function boxesHeight({ entries, boxes }: Row): number {
  const tallest = Math.max(0, ...entries.map(writingHeight));
  return Math.ceil(entries.length / boxes.columns) * tallest;
}

function drawRow(canvas: Canvas, setter: Setter, row: Row, top: number, height: number): void {
  const { x, width } = setter.column;
  drawTick(canvas, row, x, top);
  canvas.tagged('P', () => {
    drawStack(canvas, row.texts, row.textX, top - 3);
    drawStack(canvas, row.limits, row.limitX, top - 3);
  });
  drawBoxes(canvas, row, row.boxes.isBelow ? top - height + boxesHeight(row) + 3 : top - 3);
  if (row.hasNote) drawNote(canvas, setter, row, top - 5 - heightOf(row.texts));
  canvas.rule(x, top - height + 1, width, 0.4);
}

/** What is ticked has a box to tick; a reading is done when it is written down. */
function drawTick(canvas: Canvas, { step }: Row, x: number, top: number): void {
  const tick = formFieldsOf(step).find(({ part }) => part === 'done');
  if (tick === undefined) return;
  const place = { x: x + 3, y: top - 4 - BOX, width: BOX, height: BOX };
  canvas.field({ ...place, name: tick.name, kind: 'tick', label: `Done: ${step.text}` });
}

function drawStack(canvas: Canvas, stack: readonly Lines[], x: number, top: number): void {
  let at = top;
  for (const lines of stack) {
    drawLines(canvas, lines, x, at);
    at -= lines.height;
  }
}

function drawBoxes(canvas: Canvas, { entries, boxes }: Row, top: number): void {
  const tallest = Math.max(0, ...entries.map(writingHeight));
  entries.forEach((each, index) => {
    const x = boxes.x + (index % boxes.columns) * (boxes.width + 3);
    drawWriting(canvas, each, x, top - Math.floor(index / boxes.columns) * tallest, boxes.width);
  });
}

function drawNote(canvas: Canvas, setter: Setter, { step, textX, limitX }: Row, top: number): void {
  drawLines(canvas, setter.lines('Note', STYLES.small, 30), textX, top - 4);
  const place = { x: textX + 20, y: top - NOTE_HEIGHT, width: limitX - textX - 26, height: NOTE_HEIGHT };
  canvas.field({ ...place, name: formFieldName(step.id, 'note'), kind: 'text', label: `Note to ${step.id}` });
}
