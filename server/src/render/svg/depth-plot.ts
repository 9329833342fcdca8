import { type Range, rangeOf, type Scale, widened } from './axis.ts';
import { Drawing, LETTER, LINE_HEIGHT, type Pattern, type Point, widthOf } from './drawing.ts';
import { depthAxis, type Frame, topAxis } from './frame.ts';
import { hang, spread } from './labels.ts';

/** Something against vertical depth, both in the reader's units. */
export interface DepthPlot {
  readonly title: string;
  readonly description: string;
  readonly unit: string;
  readonly depthUnit: string;
  readonly lines: readonly PlotLine[];
  /** Depths with a name, such as the intake. */
  readonly levels: readonly PlotLevel[];
  readonly marks: readonly PlotMark[];
  /** Whether the axis begins at zero even where nothing lies there. */
  readonly fromZero: boolean;
}

export interface PlotLevel {
  readonly depth: number;
  readonly text: string;
}

export interface PlotLine {
  readonly points: readonly Point[];
  readonly pattern: Pattern;
  /** What it is, written beside it, at a share of its length downwards. */
  readonly name: string;
  readonly nameAt: number;
  readonly side?: 'left';
}

/** A number at a depth, named below the plot. */
export interface PlotMark {
  readonly number: number;
  readonly depth: number;
  readonly text: string;
  /** A limit is a line over a stretch of depth, what is there a dot. */
  readonly limitFrom: number | undefined;
}

const FRAME: Frame = { left: 56, right: 420, top: 26, bottom: 246 };

/** Draws a plot with depth downwards, the names of what matters at a depth below it, and no picture of the well. */
export function drawDepthPlot(plot: DepthPlot): string {
  const drawing = new Drawing();
  const deepest = rangeOf(plot.levels.map(({ depth }) => depth)).to;
  const depths = depthAxis(drawing, FRAME, widened({ from: 0, to: deepest }, 0, 0.04), plot.depthUnit);
  const across = topAxis(drawing, FRAME, rangeAcross(plot), plot.unit);
  drawLevels(drawing, plot, depths);
  const levels = plot.levels.map(({ depth }) => depths.at(depth));
  for (const line of plot.lines) drawLine(drawing, line, { across, depths, levels });
  const rows = drawMarks(drawing, plot.marks, across, depths);
  return drawing.toSvg(plot.title, plot.description, FRAME.bottom + 12 + rows * LINE_HEIGHT);
}

function rangeAcross({ lines, marks, fromZero }: DepthPlot): Range {
  const numbers = [...lines.flatMap(({ points }) => points.map(([x]) => x)), ...marks.map(({ number }) => number)];
  return rangeOf(fromZero ? [0, ...numbers] : numbers);
}

function drawLevels(drawing: Drawing, { levels }: DepthPlot, depths: Scale): void {
  const wanted = levels.map(({ depth }) => depths.at(depth));
  const places = spread(
    wanted,
    levels.map(() => LINE_HEIGHT),
    { from: FRAME.top, to: FRAME.bottom + LINE_HEIGHT },
  );
  levels.forEach(({ text }, at) => {
    const y = wanted[at] ?? 0;
    const place = places[at] ?? y;
    drawing.line(
      [
        [FRAME.left, y],
        [FRAME.right + 8, y],
        [FRAME.right + 18, place],
      ],
      'fine',
    );
    drawing.text([FRAME.right + 21, place + LETTER / 3], text);
  });
}

/** A line with its name beside it: above it to the right, or below it to the left where there is room. */
function drawLine(drawing: Drawing, line: PlotLine, { across, depths, levels }: Axes): void {
  const points = line.points.map(([number, depth]): Point => [across.at(number), depths.at(depth)]);
  drawing.line(points, line.pattern);
  const [x, y] = clearOf(levels, points, line.nameAt);
  const isLeft = line.side === 'left' && x - 9 - widthOf(line.name) > FRAME.left;
  drawing.text([isLeft ? x - 9 : x + 6, y], line.name, isLeft ? 'end' : 'start');
}

interface Axes {
  readonly across: Scale;
  readonly depths: Scale;
  /** Heights at which lines run through the whole plot. */
  readonly levels: readonly number[];
}

const SHIFTS = [0, 0.07, -0.07, 0.14, -0.14];

/** The place for a name that is nearest to where it belongs and that no level strikes through. */
function clearOf(levels: readonly number[], points: readonly Point[], wanted: number): Point {
  const places = SHIFTS.map((shift) => along(points, wanted + shift));
  const isClear = ([, y]: Point) => levels.every((level) => level < y - LETTER || level > y + 3);
  return places.find(isClear) ?? along(points, wanted);
}

/** The point at a share of the way down. */
function along(points: readonly Point[], share: number): Point {
  const y = (points[0]?.[1] ?? 0) + share * ((points.at(-1)?.[1] ?? 0) - (points[0]?.[1] ?? 0));
  const below = Math.max(
    1,
    points.findIndex((point) => point[1] >= y),
  );
  const [x1, y1] = points[below - 1] as Point;
  const [x2, y2] = points[below] ?? [x1, y1];
  return [y2 === y1 ? x2 : x1 + ((y - y1) / (y2 - y1)) * (x2 - x1), y];
}

function drawMarks(drawing: Drawing, marks: readonly PlotMark[], across: Scale, depths: Scale): number {
  const placed = marks.map((mark) => ({ ...mark, x: across.at(mark.number), width: widthOf(mark.text) + LETTER }));
  const rows = hang(placed);
  placed.forEach(({ x, depth, limitFrom, text }, at) => {
    const y = FRAME.bottom + 16 + (rows[at] ?? 0) * LINE_HEIGHT;
    const start = depths.at(depth);
    if (limitFrom === undefined) drawing.dot([x, start]);
    else
      drawing.line(
        [
          [x, depths.at(limitFrom)],
          [x, start],
        ],
        'dashed',
      );
    drawing.line(
      [
        [x, start],
        [x, y],
      ],
      'fine',
    );
    drawing.text([x + 3, y], text);
  });
  return marks.length === 0 ? 1 : Math.max(...rows) + 1;
}
