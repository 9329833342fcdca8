import type { Canvas, TextStyle } from './canvas.ts';
import type { Block } from './flow.ts';
import { drawLines, inPieces, type Lines, type Setter, STYLES } from './setter.ts';

/** Texts that stand one below the other in a cell. */
export type Cell = readonly (readonly [text: string, style: TextStyle])[];

/** A column by its head and its width in points; without a width it takes what the others leave. */
export interface TableColumn {
  readonly title: string;
  readonly width?: number;
}

export interface Row {
  readonly cells: readonly Cell[];
  /** Set apart from the others, also in black and white. */
  readonly isFramed?: boolean;
  /** Room to write by hand, in points. */
  readonly minHeight?: number;
}

const GAP = 5;
const PADDING = 2;

/** The rows of a table below their head, which is repeated on each page; nothing for no rows. */
export function tableBlocks(setter: Setter, columns: readonly TableColumn[], rows: readonly Row[]): readonly Block[] {
  const places = placesOf(setter, columns);
  const titles = columns.map(({ title }): Cell => [[title, STYLES.smallStrong]]);
  const [head] = columns.some(({ title }) => title !== '') ? rowBlocks(setter, places, { cells: titles }, 0.8) : [];
  return rows.flatMap((row) => rowBlocks(setter, places, row, 0.3).map((block) => ({ ...block, head })));
}

interface Place {
  readonly x: number;
  readonly width: number;
}

function placesOf(setter: Setter, columns: readonly TableColumn[]): readonly Place[] {
  const { x, width } = setter.column;
  const given = columns.reduce((total, column) => total + (column.width ?? 0), 0);
  const free = (width - given) / columns.filter((column) => column.width === undefined).length;
  const widths = columns.map((column) => column.width ?? free);
  return widths.map((each, index) => ({
    x: x + widths.slice(0, index).reduce((total, one) => total + one, 0),
    width: each - GAP,
  }));
}

/** One block as a rule; more where a text goes on for longer than a page. */
function rowBlocks(setter: Setter, places: readonly Place[], row: Row, rule: number): readonly Block[] {
  const cells = row.cells.map((cell, index) => stacked(setter, cell, places[index]?.width ?? 0));
  const count = Math.max(...cells.map((pieces) => pieces.length));
  return Array.from({ length: count }, (_, piece) => {
    const stacks = cells.map((pieces) => pieces[piece] ?? []);
    const height = Math.max(row.minHeight ?? 0, ...stacks.map(heightOf)) + 2 * PADDING;
    return {
      height,
      draw: (canvas: Canvas, top: number) => {
        drawCells(canvas, stacks, places, top - PADDING);
        drawEdge(canvas, setter, row, { top, height, rule: piece === count - 1 ? rule : undefined });
      },
    };
  });
}

type Stack = readonly Lines[];

/** The texts of a cell in stacks that each fit on a page: one, unless a text is longer than that. */
function stacked(setter: Setter, cell: Cell, width: number): readonly Stack[] {
  const pieces = cell.map(([text, style]) => inPieces(setter.lines(text, style, width)));
  const isShort = pieces.every(({ length }) => length === 1);
  return isShort ? [pieces.flat()] : pieces.flat().map((lines) => [lines]);
}

function heightOf(stack: Stack): number {
  return stack.reduce((total, { height }) => total + height, 0);
}

function drawCells(canvas: Canvas, stacks: readonly Stack[], places: readonly Place[], top: number): void {
  if (stacks.every((stack) => heightOf(stack) === 0)) return;
  canvas.tagged('P', () => {
    stacks.forEach((stack, index) => {
      let at = top;
      for (const lines of stack) {
        drawLines(canvas, lines, (places[index]?.x ?? 0) + PADDING, at);
        at -= lines.height;
      }
    });
  });
}

interface Edge {
  readonly top: number;
  readonly height: number;
  /** Thickness of the rule below; undefined where the row goes on. */
  readonly rule: number | undefined;
}

function drawEdge(canvas: Canvas, setter: Setter, { isFramed }: Row, { top, height, rule }: Edge): void {
  const { x, width } = setter.column;
  if (isFramed) canvas.frame({ x, y: top - height + 0.8, width, height: height - 1 }, 1.4);
  else if (rule !== undefined) canvas.rule(x, top - height + 0.4, width, rule);
}
