import type { Evaluation } from '../../engine/index.ts';
import { type Range, rangeOf, type Scale } from './axis.ts';
import { Drawing, LETTER, LINE_HEIGHT, type Pattern, type Point } from './drawing.ts';
import { type Frame, leftAxis } from './frame.ts';
import { spread } from './labels.ts';
import { type Picture, pictureOf, Reader } from './picture.ts';

const FRAME: Frame = { left: 50, right: 400, top: 26, bottom: 190 };
const HEIGHT = 222;
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
export function voltagePicture(evaluation: Evaluation, caseIndex: number): Picture {
  const reader = new Reader(evaluation, caseIndex);
  const title = `Voltage from drive to motor, ${evaluation.caseName(caseIndex)}`;
  const chain = readChain(reader);
  return pictureOf({ id: 'voltage', title, caseIndex }, reader, () => draw(title, chain, reader));
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

function draw(title: string, chain: Chain, reader: Reader): string {
  const drawing = new Drawing();
  const drawn = (number: number) => reader.drawn(number, 'voltage');
  const range = rangeFor(chain, drawn);
  const scale = leftAxis(drawing, FRAME, range, reader.unit('voltage'));
  drawChain(drawing, chain, scale, reader);
  drawLimits(drawing, chain.limits, scale, reader);
  return drawing.toSvg(title, describe(chain, reader), HEIGHT);
}

/** From zero, unless all is so near together that the steps would not be seen. */
function rangeFor({ needed, reached, limits }: Chain, drawn: (number: number) => number): Range {
  const own = rangeOf([...needed.map(({ number }) => drawn(number)), drawn(reached)]);
  const near = limits.map(({ number }) => drawn(number)).filter((number) => number <= NEAR * own.to);
  const all = rangeOf([own.from, own.to, ...near]);
  const from = all.from > 0.6 * all.to ? all.from - 0.6 * (all.to - all.from) : 0;
  return { from, to: all.to };
}

function drawChain(drawing: Drawing, { needed, reached }: Chain, scale: Scale, reader: Reader): void {
  const step = (FRAME.right - FRAME.left) / needed.length;
  const heightOf = (number: number) => scale.at(reader.drawn(number, 'voltage'));
  const points = needed.map(({ number }, at): Point => [FRAME.left + step * (at + 0.35), heightOf(number)]);
  drawing.line(points, 'heavy');
  needed.forEach(({ name, number }, at) => {
    const [x, y] = points[at] as Point;
    drawing.dot([x, y]);
    drawing.text([x + 5, y - 5], reader.shown(number, 'voltage'));
    for (const [row, line] of name.entries()) {
      drawing.text([x, FRAME.bottom + 15 + row * LINE_HEIGHT], line, 'middle');
    }
  });
  const last = needed.at(-1)?.number ?? Number.NaN;
  if (Math.abs(reached - last) <= 0.001 * last) return;
  const [x] = points.at(-1) as Point;
  const y = heightOf(reached);
  drawing.dot([x, y], false);
  const away = y > heightOf(last) ? LETTER + 4 : -5 - (Math.abs(y - heightOf(last)) < LINE_HEIGHT ? LINE_HEIGHT : 0);
  drawing.text([x + 5, y + away], `gets ${reader.shown(reached, 'voltage')}`);
}

function drawLimits(drawing: Drawing, limits: readonly Limit[], scale: Scale, reader: Reader): void {
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
    drawing.text([FRAME.right + 25, place + LETTER / 3], isShown ? text : `↑ ${text}`);
    if (isShown) drawLimit(drawing, y, place, pattern);
  }
}

function drawLimit(drawing: Drawing, y: number, place: number, pattern: Pattern): void {
  const edge: Point = [FRAME.right + 10, y];
  drawing.line([[FRAME.left, y], edge], pattern);
  drawing.line([edge, [FRAME.right + 22, place]], 'fine');
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
