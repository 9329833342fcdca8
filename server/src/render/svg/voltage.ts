import type { Evaluation } from '../../engine/index.ts';
import { type Range, rangeOf, type Scale } from './axis.ts';
import { Drawing, LETTER, LINE_HEIGHT, type Pattern, type PictureWidth, type Point, widthOf } from './drawing.ts';
import { type Frame, leftAxis } from './frame.ts';
import { spread } from './labels.ts';
import { type Picture, pictureOf, Reader } from './picture.ts';

const FRAME = { left: 50, top: 26, bottom: 190 } as const;
/** Room for the names of the limits, at the right, and of the places, below. */
const [LIMITS, PLACES] = [200, 32];
/** A limit further off than this would press the rest of the picture flat. */
const NEAR = 1.5;

interface Limit {
  readonly name: string;
  /** V, on the secondary side. */
  readonly number: number;
  readonly pattern: Pattern;
}

interface Chain {
  /** From the drive to the motor, V; the drive's output as it appears on the secondary side. */
  readonly needed: readonly { readonly name: readonly [string, string]; readonly number: number }[];
  /** What the motor gets, V. */
  readonly reached: number;
  readonly limits: readonly Limit[];
}

/** Voltage from the drive to the motor in one case, against what bounds it. */
export function voltagePicture(evaluation: Evaluation, caseIndex: number, width: PictureWidth): Picture {
  const reader = new Reader(evaluation, caseIndex);
  const title = `Voltage from drive to motor, ${evaluation.caseName(caseIndex)}`;
  const chain = readChain(reader);
  return pictureOf({ id: 'voltage', title, caseIndex }, reader, () => draw(title, chain, reader, width));
}

function readChain(reader: Reader): Chain {
  const tap = reader.value('transformer.tap_voltage');
  const ratio = tap / reader.entry('equipment.transformer.primary_voltage');
  const written = reader.context.text('setpoints.transformer.tap');
  return {
    needed: [
      { name: ['drive output,', 'at secondary'], number: reader.value('drive.output_voltage') * ratio },
      { name: ['transformer', 'emf'], number: reader.value('transformer.emf') },
      { name: ['top of', 'cable'], number: reader.value('surface.required_voltage') },
      { name: ['motor', 'terminals'], number: reader.value('motor.voltage') },
    ],
    reached: reader.value('motor.terminal_voltage'),
    limits: [
      { name: 'available', number: reader.value('drive.available_voltage') * ratio, pattern: 'dashed' },
      { name: written === '' ? 'tap' : `tap ${written},`, number: tap, pattern: 'mixed' },
      { name: 'voltage class', number: reader.known('transformer.voltage_class') ?? Number.NaN, pattern: 'dotted' },
    ],
  };
}

function draw(title: string, chain: Chain, reader: Reader, width: PictureWidth): string {
  const drawing = new Drawing(width);
  const frame: Frame = { ...FRAME, right: width - LIMITS };
  const drawn = (number: number) => reader.drawn(number, 'voltage');
  const range = rangeFor(chain, drawn);
  const scale = leftAxis(drawing, frame, range, reader.unit('voltage'));
  const rows = drawChain(drawing, chain, { frame, scale }, reader);
  drawLimits(drawing, chain.limits, { frame, scale }, reader);
  return drawing.toSvg(title, describe(chain, reader), FRAME.bottom + PLACES + (rows - 1) * 2 * LINE_HEIGHT);
}

/** From zero, unless all is so near together that the steps would not be seen. */
function rangeFor({ needed, reached, limits }: Chain, drawn: (number: number) => number): Range {
  const own = rangeOf([...needed.map(({ number }) => drawn(number)), drawn(reached)]);
  const near = limits.map(({ number }) => drawn(number)).filter((number) => number <= NEAR * own.to);
  const all = rangeOf([own.from, own.to, ...near]);
  const from = all.from > 0.6 * all.to ? all.from - 0.6 * (all.to - all.from) : 0;
  return { from, to: all.to };
}

interface Place {
  readonly frame: Frame;
  readonly scale: Scale;
}

/** Returns in how many rows the names stand: beside each other, or by turns in two where there is little room. */
function drawChain(drawing: Drawing, { needed, reached }: Chain, { frame, scale }: Place, reader: Reader): number {
  const step = (frame.right - frame.left) / needed.length;
  const rows = needed.some(({ name }) => name.some((line) => widthOf(line) > step)) ? 2 : 1;
  const heightOf = (number: number) => scale.at(reader.drawn(number, 'voltage'));
  const points = needed.map(({ number }, at): Point => [frame.left + step * (at + 0.35), heightOf(number)]);
  drawing.line(points, 'heavy');
  needed.forEach(({ name, number }, at) => {
    const [x, y] = points[at] as Point;
    drawing.dot([x, y]);
    drawing.text([x + 5, y - 5], reader.shown(number, 'voltage'));
    for (const [row, line] of name.entries()) {
      drawing.text([x, FRAME.bottom + 15 + (row + (at % rows) * 2) * LINE_HEIGHT], line, 'middle');
    }
  });
  const last = needed.at(-1)?.number ?? Number.NaN;
  if (Math.abs(reached - last) <= 0.001 * last) return rows;
  const [x] = points.at(-1) as Point;
  const y = heightOf(reached);
  drawing.dot([x, y], false);
  const away = y > heightOf(last) ? LETTER + 4 : -5 - (Math.abs(y - heightOf(last)) < LINE_HEIGHT ? LINE_HEIGHT : 0);
  drawing.text([x + 5, y + away], `gets ${reader.shown(reached, 'voltage')}`);
  return rows;
}

function drawLimits(drawing: Drawing, limits: readonly Limit[], { frame, scale }: Place, reader: Reader): void {
  const known = limits
    .filter(({ number }) => Number.isFinite(number) && number < Number.MAX_VALUE)
    .sort((a, b) => b.number - a.number);
  const wanted = known.map(({ number }) => Math.max(FRAME.top, scale.at(reader.drawn(number, 'voltage'))));
  const column = { from: FRAME.top - LINE_HEIGHT, to: FRAME.bottom };
  const places = spread(
    wanted,
    known.map(() => LINE_HEIGHT),
    column,
  );
  for (const [at, { name, number, pattern }] of known.entries()) {
    const y = wanted[at] ?? 0;
    const place = places[at] ?? y;
    const isShown = scale.covers(reader.drawn(number, 'voltage'));
    const text = `${name} ${reader.shown(number, 'voltage')}`;
    drawing.text([frame.right + 25, place + LETTER / 3], isShown ? text : `↑ ${text}`);
    if (isShown) drawLimit(drawing, frame, [y, place], pattern);
  }
}

function drawLimit(drawing: Drawing, { left, right }: Frame, [y, place]: Point, pattern: Pattern): void {
  const edge: Point = [right + 10, y];
  drawing.line([[left, y], edge], pattern);
  drawing.line([edge, [right + 22, place]], 'fine');
}

function describe({ needed, reached, limits }: Chain, reader: Reader): string {
  const say = (name: string, number: number) => `${name} ${reader.shown(number, 'voltage')}`;
  const parts = [
    ...needed.map(({ name, number }) => say(name.join(' '), number)),
    say('the motor gets', reached),
    ...limits.filter(({ number }) => Number.isFinite(number)).map(({ name, number }) => say(name, number)),
  ];
  return `${parts.join('; ')}.`;
}
