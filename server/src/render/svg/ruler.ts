import type { Evaluation, WindowReading } from '../../engine/index.ts';
import { type Range, rangeOf, Scale, ticks, widened } from './axis.ts';
import { Drawing, LETTER, LINE_HEIGHT, type PictureWidth, type Point, WIDE } from './drawing.ts';
import { spread } from './labels.ts';
import {
  BANDS,
  type Band,
  boundLabels,
  heightOf,
  REACH,
  type RulerLabel,
  settingLabels,
  WindowUnits,
} from './ruler-labels.ts';

const LEAST_HEIGHT = 130;
const TICK_SPACE = 20;

/**
 * A window as a ruler: its ends and bounds at the right, what is set, recommended and on the plate at the left. The
 * outline is the window, the tint its comfortable range; bounds far outside stand beyond its ends with an arrow.
 */
export function windowRuler(evaluation: Evaluation, reading: WindowReading, width: PictureWidth = WIDE): string {
  const units = new WindowUnits(evaluation, reading);
  const bounds = boundLabels(reading, units, width);
  const settings = settingLabels(evaluation, reading, units, width);
  const height = Math.max(heightOf(bounds), heightOf(settings), LEAST_HEIGHT) + 2 * LINE_HEIGHT;
  const range = rangeFor(reading, [...settings, ...bounds], units);
  const scale = new Scale(range, height - LINE_HEIGHT, LINE_HEIGHT);
  const drawing = new Drawing(width);
  const band = BANDS[width];
  drawBand(drawing, reading, { band, scale }, units);
  drawColumn(drawing, settings, { band, scale }, 'left');
  drawColumn(drawing, bounds, { band, scale }, 'right');
  const description = [...settings, ...bounds].map(({ lines }) => lines.join(' ')).join('; ');
  return drawing.toSvg(`Window of ${reading.window.title}`, `${description}.`, height);
}

/** The window, the setting and the taps with some room; bounds far outside would press these together. */
function rangeFor({ ends }: WindowReading, labels: readonly RulerLabel[], units: WindowUnits): Range {
  const settings = labels.filter(({ style }) => style !== 'hard' && style !== 'soft');
  const inner = [units.drawn(ends.hardLower), units.drawn(ends.hardUpper), ...settings.map(({ number }) => number)];
  const core = rangeOf(inner);
  return widened(core.to > core.from ? core : rangeOf(labels.map(({ number }) => number)), 0.12, 0.12);
}

/** Where the ruler stands, and the numbers along it. */
interface Ruler {
  readonly band: Band;
  readonly scale: Scale;
}

function drawBand(drawing: Drawing, { ends }: WindowReading, { band, scale }: Ruler, units: WindowUnits): void {
  const inside = (number: number) => scale.at(Math.min(scale.to, Math.max(scale.from, units.drawn(number))));
  if (ends.lower <= ends.upper) drawing.area([band.left, inside(ends.lower)], [band.right, inside(ends.upper)]);
  drawSides(drawing, band, [scale.at(scale.from), scale.at(scale.to)], 'fine');
  const fits = ends.hardLower <= ends.hardUpper;
  const caps = [ends.hardLower, ends.hardUpper].filter((end) => fits && Number.isFinite(end)).map(inside);
  for (const y of caps) drawing.line(across(band, y), 'heavy');
  if (fits) drawSides(drawing, band, [inside(ends.hardLower), inside(ends.hardUpper)], 'heavy');
  for (const { number, text } of ticks(scale, Math.abs(scale.at(scale.to) - scale.at(scale.from)) / TICK_SPACE)) {
    const y = scale.at(number);
    drawing.line([
      [band.right - 5, y],
      [band.right, y],
    ]);
    // A number under the end of the window could be read neither as the one nor as the other.
    if (caps.every((cap) => Math.abs(cap - y) > LETTER * 0.7)) {
      drawing.text([band.right - 8, y + LETTER / 3], text, 'end');
    }
  }
}

function across({ left, right }: Band, y: number): readonly Point[] {
  return [
    [left, y],
    [right, y],
  ];
}

function drawSides(drawing: Drawing, { left, right }: Band, [from, to]: Point, pattern: 'fine' | 'heavy'): void {
  for (const x of [left, right]) {
    const side: readonly Point[] = [
      [x, from],
      [x, to],
    ];
    drawing.line(side, pattern);
  }
}

function drawColumn(drawing: Drawing, labels: readonly RulerLabel[], ruler: Ruler, side: 'left' | 'right'): void {
  const { band, scale } = ruler;
  const wanted = labels.map(({ number }) => scale.at(Math.min(scale.to, Math.max(scale.from, number))));
  const heights = labels.map(({ lines }) => lines.length * LINE_HEIGHT);
  const places = spread(wanted, heights, { from: 2, to: scale.at(scale.from) + LINE_HEIGHT });
  for (const [at, label] of labels.entries()) {
    const place = { x: xFrom(band, side), side, at: wanted[at] ?? 0, place: places[at] ?? 0 };
    if (scale.covers(label.number)) drawLeader(drawing, label.style, place);
    drawText(drawing, label, scale, place);
  }
}

interface Place {
  /** Distances from the ruler outwards. */
  readonly x: (out: number) => number;
  readonly side: 'left' | 'right';
  /** Height of the number, and of its label. */
  readonly at: number;
  readonly place: number;
}

/** From the ruler to a label: filled for what is set, open for what is recommended, a line for a bound or a tap. */
function drawLeader(drawing: Drawing, style: RulerLabel['style'], { x, at, place }: Place): void {
  const leader: readonly Point[] = [
    [x(8), at],
    [x(12), at],
    [x(REACH - 4), place],
  ];
  drawing.line(leader, 'fine');
  if (style === 'set' || style === 'recommended') {
    const mark: readonly Point[] = [
      [x(0), at],
      [x(9), at - 4],
      [x(9), at + 4],
    ];
    drawing.mark(mark, style === 'set');
    return;
  }
  const end: readonly Point[] = [
    [x(0), at],
    [x(8), at],
  ];
  drawing.line(end, style === 'hard' ? 'heavy' : style === 'soft' ? 'dotted' : 'solid');
}

function drawText(drawing: Drawing, { number, lines }: RulerLabel, scale: Scale, { x, side, place }: Place): void {
  const arrow = scale.covers(number) ? '' : number > scale.to ? '↑ ' : '↓ ';
  const top = place - ((lines.length - 1) * LINE_HEIGHT) / 2 + LETTER / 3;
  for (const [row, line] of lines.entries()) {
    const at: Point = [x(REACH), top + row * LINE_HEIGHT];
    drawing.text(at, row === 0 ? arrow + line : line, side === 'left' ? 'end' : 'start');
  }
}

function xFrom({ left, right }: Band, side: 'left' | 'right'): Place['x'] {
  return (out) => (side === 'left' ? left - out : right + out);
}
