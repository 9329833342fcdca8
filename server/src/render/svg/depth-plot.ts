import { type Range, rangeOf, type Scale, widened } from './axis.ts';
import { Drawing, LETTER, LINE_HEIGHT, type Pattern, type PictureWidth, type Point, widthOf } from './drawing.ts';
import { depthAxis, type Frame, topAxis } from './frame.ts';
import { hang, spread } from './labels.ts';

/** Something against vertical depth, both in the reader's units. */
export interface DepthPlot {
  readonly title: string;
  readonly description: string;
  readonly width: PictureWidth;
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

const FRAME = { left: 56, top: 26, bottom: 246 } as const;
/** Room for the names of the depths, at the right. */
const NAMES = 180;

/** Draws a plot with depth downwards, the names of what matters at a depth below it, and no picture of the well. */
export function drawDepthPlot(plot: DepthPlot): string {
  const drawing = new Drawing(plot.width);
  const frame: Frame = { ...FRAME, right: plot.width - NAMES };
  const deepest = rangeOf(plot.levels.map(({ depth }) => depth)).to;
  const depths = depthAxis(drawing, frame, widened({ from: 0, to: deepest }, 0, 0.04), plot.depthUnit);
  const across = topAxis(drawing, frame, rangeAcross(plot), plot.unit);
  drawLevels(drawing, plot, depths, frame.right);
  const levels = plot.levels.map(({ depth }) => depths.at(depth));
  const names: NamePlace[] = [];
  for (const line of plot.lines) names.push(drawLine(drawing, line, { frame, across, depths, levels, names }));
  const rows = drawMarks(drawing, plot.marks, across, depths);
  return drawing.toSvg(plot.title, plot.description, FRAME.bottom + 12 + rows * LINE_HEIGHT);
}

function rangeAcross({ lines, marks, fromZero }: DepthPlot): Range {
  const numbers = [...lines.flatMap(({ points }) => points.map(([x]) => x)), ...marks.map(({ number }) => number)];
  return rangeOf(fromZero ? [0, ...numbers] : numbers);
}

function drawLevels(drawing: Drawing, { levels }: DepthPlot, depths: Scale, right: number): void {
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
        [right + 8, y],
        [right + 18, place],
      ],
      'fine',
    );
    drawing.text([right + 21, place + LETTER / 3], text);
  });
}

/** A line with its name beside it: above it to the right, or below it to the left where there is room. */
function drawLine(drawing: Drawing, line: PlotLine, axes: Axes): NamePlace {
  const { across, depths } = axes;
  const points = line.points.map(([number, depth]): Point => [across.at(number), depths.at(depth)]);
  drawing.line(points, line.pattern);
  const place = clearPlace(line, points, axes);
  if (place.isLeft) drawing.text([place.right, place.y], line.name, 'end');
  else drawing.text([place.left, place.y], line.name);
  return place;
}

interface Axes {
  readonly frame: Frame;
  readonly across: Scale;
  readonly depths: Scale;
  /** Heights at which lines run through the whole plot. */
  readonly levels: readonly number[];
  /** Of the lines before. */
  readonly names: readonly NamePlace[];
}

/** Where the name of a line stands. */
interface NamePlace {
  readonly left: number;
  readonly right: number;
  readonly y: number;
  readonly isLeft: boolean;
}

const SHIFTS = [0, 0.07, -0.07, 0.14, -0.14, 0.21, -0.21];

/** The place for a name that is nearest to where it belongs, with no level through it and no other name in its way. */
function clearPlace(line: PlotLine, points: readonly Point[], { frame, levels, names }: Axes): NamePlace {
  const places = SHIFTS.map((shift) => beside(along(points, line.nameAt + shift), line, frame));
  const isClear = ({ left, right, y }: NamePlace) =>
    levels.every((level) => level < y - LETTER || level > y + 3) &&
    names.every((other) => right < other.left || left > other.right || Math.abs(y - other.y) > LETTER);
  return places.find(isClear) ?? (places[0] as NamePlace);
}

function beside([x, y]: Point, { name, side }: PlotLine, frame: Frame): NamePlace {
  const width = widthOf(name);
  const isLeft = side === 'left' && x - 9 - width > frame.left;
  const left = isLeft ? x - 9 - width : x + 6;
  return { left, right: left + width, y, isLeft };
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
