import { type Evaluation, type RotaryLines, rotaryLines } from '../../engine/index.ts';
import { type Range, rangeOf, rounded, type Scale } from './axis.ts';
import {
  Drawing,
  fitted,
  LETTER,
  LINE_HEIGHT,
  type Pattern,
  type PictureWidth,
  type Point,
  widthOf,
} from './drawing.ts';
import { bottomAxis, type Frame, leftAxis, ticksAcross } from './frame.ts';
import { anchorPoint, type Box, clearest, spread } from './labels.ts';
import { type Picture, pictureOf, Reader } from './picture.ts';

const FRAME = { left: 56, top: 26, bottom: 226 } as const;
/** Room for the names of the lines, at the right. */
const NAMES = 200;
const POINTS = 32;
const NAME_ROOM = 140;
const RECOMMENDED = 'equipment.pump.recommended_rate';

interface CaseLines {
  readonly reader: Reader;
  readonly name: string;
  readonly frequency: number;
  readonly speed: number;
  readonly rate: number;
  readonly head: number;
  readonly lines: RotaryLines;
}

/** Head against rate at the frequencies of the cases only, the system's line of each case, and where they meet. */
export function pumpCurvePicture(evaluation: Evaluation, width: PictureWidth): Picture {
  const title = 'Head of the pump against rate';
  const reader = new Reader(evaluation, 0);
  const cases = Array.from({ length: evaluation.caseCount }, (_, at) => readCase(evaluation, at, reader));
  if (cases.length === 0) reader.noteMissing(['operation.cases']);
  return pictureOf({ id: 'pump-curve', title, caseIndex: undefined }, reader, () =>
    draw(
      title,
      cases.flatMap((each) => (each === undefined ? [] : [each])),
      reader,
      width,
    ),
  );
}

/** One case; what it lacks is noted with the picture's reader. */
function readCase(evaluation: Evaluation, at: number, all: Reader): CaseLines | undefined {
  const reader = new Reader(evaluation, at);
  const lines = rotaryLines(evaluation, at);
  if ('missing' in lines) {
    all.noteMissing(lines.missing);
    return undefined;
  }
  const read = {
    reader,
    lines,
    name: evaluation.caseName(at),
    frequency: reader.value('motor.frequency'),
    speed: reader.value('pump.speed_ratio'),
    rate: reader.value('pump.rate'),
    head: reader.value('pump.head'),
  };
  all.noteMissing(reader.missing);
  return read;
}

function draw(title: string, cases: readonly CaseLines[], reader: Reader, width: PictureWidth): string {
  const drawing = new Drawing(width);
  const frame: Frame = { ...FRAME, right: width - NAMES };
  const x = bottomAxis(drawing, frame, rateRange(cases, reader, frame), reader.unit('volume_rate'));
  const y = leftAxis(drawing, frame, headRange(cases, reader), `head, ${reader.unit('length')}`);
  const sketch = { drawing, x, y, reader, right: frame.right };
  const curves = distinct(cases);
  const lines = [
    ...curves.map((each) => drawCurve(sketch, each, each.lines.pumpHead, speedName(each))),
    ...cases.map((each) => drawSystem(sketch, each)),
  ];
  nameLines(sketch, lines);
  drawPoints(
    sketch,
    cases,
    lines.map(({ points }) => points),
  );
  const brackets = drawBrackets(sketch, curves);
  return drawing.toSvg(title, describe(cases, reader), FRAME.bottom + 24 + brackets * (LINE_HEIGHT + 4));
}

interface Sketch {
  /** Where the plot ends. */
  readonly right: number;
  readonly drawing: Drawing;
  readonly x: Scale;
  readonly y: Scale;
  readonly reader: Reader;
}

function rateRange(cases: readonly CaseLines[], reader: Reader, frame: Frame): Range {
  const most = Math.max(...cases.map(({ lines }) => lines.maxRate));
  return rounded({ from: 0, to: reader.drawn(most, 'volume_rate') }, ticksAcross(frame));
}

function headRange(cases: readonly CaseLines[], reader: Reader): Range {
  const heads = cases.flatMap(({ lines, head }) => [lines.pumpHead(0), lines.systemHead(0), head]);
  return rangeOf([0, ...heads.map((head) => reader.drawn(head, 'length'))]);
}

/** The first case at each frequency: the curve of a pump does not depend on the rest of the case. */
function distinct(cases: readonly CaseLines[]): readonly CaseLines[] {
  return cases.filter((each, at) => cases.findIndex(({ frequency }) => frequency === each.frequency) === at);
}

function speedName({ frequency, reader }: CaseLines): string {
  return `pump, ${reader.shown(frequency, 'frequency')}`;
}

interface NamedLine {
  readonly points: readonly Point[];
  readonly text: string;
}

function drawSystem(sketch: Sketch, each: CaseLines): NamedLine {
  return drawCurve(sketch, each, each.lines.systemHead, `system, ${each.name}`, 'dashed');
}

function drawCurve(
  { drawing, x, y, reader }: Sketch,
  { lines }: CaseLines,
  headAt: (rate: number) => number,
  text: string,
  pattern: Pattern = 'solid',
): NamedLine {
  const points: Point[] = [];
  for (let at = 0; at <= POINTS; at++) {
    const rate = (lines.maxRate * at) / POINTS;
    const head = reader.drawn(headAt(rate), 'length');
    if (y.covers(head)) points.push([x.at(reader.drawn(rate, 'volume_rate')), y.at(head)]);
  }
  if (points.length > 1) drawing.line(points, pattern);
  return { points, text };
}

/** The names of the lines in a column at the right, in the order in which the lines end. */
function nameLines({ drawing, right }: Sketch, lines: readonly NamedLine[]): void {
  const ends = lines.map(({ points }): Point => points.at(-1) ?? [right, FRAME.bottom]);
  const places = spread(
    ends.map(([, y]) => y),
    ends.map(() => LINE_HEIGHT),
    { from: FRAME.top, to: FRAME.bottom - LETTER },
  );
  for (const [at, { text }] of lines.entries()) {
    const place = places[at] ?? 0;
    drawing.line([ends[at] as Point, [right + 6, place]], 'fine');
    drawing.text([right + 9, place + LETTER / 3], text);
  }
}

/** The operating points, each named where its name meets the fewest lines. */
function drawPoints(
  { drawing, x, y, reader }: Sketch,
  cases: readonly CaseLines[],
  lines: readonly (readonly Point[])[],
): void {
  // The numbers of the axis.
  const taken: Box[] = [{ x: 0, y: 0, width: FRAME.left, height: FRAME.bottom, anchor: 'start' }];
  for (const { rate, head, name: whole } of cases) {
    const name = fitted(whole, NAME_ROOM);
    const point: Point = [x.at(reader.drawn(rate, 'volume_rate')), y.at(reader.drawn(head, 'length'))];
    const box = clearest(point, widthOf(name), lines, taken);
    taken.push(box);
    drawing.dot(point);
    drawing.text(anchorPoint(box), name, box.anchor);
  }
}

/** The recommended range at each frequency, as a bracket below the axis. */
function drawBrackets({ drawing, x, reader }: Sketch, curves: readonly CaseLines[]): number {
  const least = reader.knownEntry(`${RECOMMENDED}.min`);
  const most = reader.knownEntry(`${RECOMMENDED}.max`);
  if (least === undefined || most === undefined) return 0;
  curves.forEach(({ speed, frequency }, row) => {
    const y = FRAME.bottom + 24 + row * (LINE_HEIGHT + 4);
    const [from, to] = [least, most].map((rate) => x.at(reader.drawn(rate * speed, 'volume_rate'))) as [number, number];
    drawing.line([
      [from, y],
      [from, y + 5],
      [to, y + 5],
      [to, y],
    ]);
    drawing.text([to + 6, y + 8], `recommended at ${reader.shown(frequency, 'frequency')}`);
  });
  return curves.length;
}

function describe(cases: readonly CaseLines[], reader: Reader): string {
  const parts = cases.map(
    ({ name, rate, head, frequency }) =>
      `${name}: ${reader.shown(rate, 'volume_rate')} at ${reader.shown(head, 'length')} and ${reader.shown(frequency, 'frequency')}`,
  );
  return `Where pump and system meet. ${parts.join('; ')}.`;
}
