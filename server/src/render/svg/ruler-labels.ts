import {
  CheckContext,
  type Evaluation,
  formatMeasure,
  kindNamed,
  type Measure,
  platedTaps,
  toUnit,
  type WindowReading,
} from '../../engine/index.ts';
import { LINE_HEIGHT, NARROW, type PictureWidth, WIDE, widthOf } from './drawing.ts';

export interface Band {
  readonly left: number;
  readonly right: number;
}

/** The ruler itself, and how far from it the names begin. */
export const BANDS: Readonly<Record<PictureWidth, Band>> = {
  [WIDE]: { left: 204, right: 244 },
  [NARROW]: { left: 158, right: 198 },
};
export const REACH = 26;
const TAP = 'setpoints.transformer.tap';

export interface RulerLabel {
  /** In the author's unit. */
  readonly number: number;
  readonly lines: readonly string[];
  readonly style: 'hard' | 'soft' | 'set' | 'recommended' | 'tap';
}

/** Reads the numbers of one window in one unit, the author's: 5 min is not above 2 h on a ruler in hours. */
export class WindowUnits {
  readonly #context: CheckContext;
  readonly #kind: string;
  readonly #key: string;
  readonly #unit: string;

  constructor(evaluation: Evaluation, { window, setpoint, recommended, bounds }: WindowReading) {
    this.#context = new CheckContext(evaluation, 0, '');
    this.#kind = window.kind;
    this.#key = window.setpoint;
    const first = setpoint ?? recommended ?? bounds.find(({ number }) => Number.isFinite(number))?.number ?? 0;
    this.#unit = this.#read(first).unit;
  }

  /** The bare number; what is not finite stays so. */
  drawn(number: number): number {
    if (!Number.isFinite(number)) return number;
    const read = this.#read(number);
    const kind = read.unit === this.#unit ? undefined : kindNamed(this.#kind);
    return (kind && toUnit(number, kind, this.#unit)) ?? read.number;
  }

  shown(number: number): string {
    const kind = this.#read(number).unit === this.#unit ? undefined : kindNamed(this.#kind);
    return kind === undefined
      ? this.#context.show(number, this.#kind, this.#key)
      : formatMeasure(number, kind, this.#unit);
  }

  #read(number: number): Measure {
    return this.#context.unrounded(number, this.#kind, this.#key);
  }
}

/** The bounds by name, highest first. */
export function boundLabels({ bounds }: WindowReading, units: WindowUnits, width: PictureWidth): readonly RulerLabel[] {
  // Two letters are left for the arrow of what lies beyond the ruler.
  const letters = Math.floor((width - BANDS[width].right - REACH) / widthOf('x')) - 2;
  const known = bounds.filter(({ number }) => Number.isFinite(number));
  return highestFirst(
    known.map(({ bound, number }) => {
      const sign = bound.side === 'lower' ? '≥' : '≤';
      const name = bound.limitName.replace(/^the /, '');
      const style = bound.hard ? 'hard' : 'soft';
      return { number: units.drawn(number), lines: broken(`${sign} ${units.shown(number)}, ${name}`, letters), style };
    }),
  );
}

/** What is set, what is recommended, and of a transformer the other taps on its plate, highest first. */
export function settingLabels(
  evaluation: Evaluation,
  reading: WindowReading,
  units: WindowUnits,
  width: PictureWidth,
): readonly RulerLabel[] {
  const { window, setpoint, recommended } = reading;
  const taps = window.setpoint === TAP ? platedTaps(evaluation) : [];
  const words = (number: number) => {
    const plate = taps.find(({ voltage }) => voltage === number);
    return plate === undefined ? units.shown(number) : `tap ${plate.tap}, ${units.shown(number)}`;
  };
  const label = (style: RulerLabel['style'], number: number, lines: readonly string[]): RulerLabel => ({
    number: units.drawn(number),
    lines,
    style,
  });
  const labels: RulerLabel[] = taps
    .filter(({ voltage }) => voltage !== setpoint && voltage !== recommended)
    .map(({ voltage }) => label('tap', voltage, [words(voltage)]));
  const isBoth = setpoint !== undefined && setpoint === recommended;
  if (setpoint !== undefined) {
    const lines = isBoth ? ['set, as recommended:', words(setpoint)] : [`set: ${words(setpoint)}`];
    labels.push(label('set', setpoint, lines));
  }
  if (recommended !== undefined && !isBoth) {
    const isLong = taps.length > 0 || width === NARROW;
    const lines = isLong ? ['recommended:', words(recommended)] : [`recommended: ${words(recommended)}`];
    labels.push(label('recommended', recommended, lines));
  }
  return highestFirst(labels);
}

export function heightOf(labels: readonly RulerLabel[]): number {
  return labels.reduce((sum, { lines }) => sum + lines.length * LINE_HEIGHT, 0);
}

/** A column is written from the top, and what lies beyond the ruler has no other order than this. */
function highestFirst(labels: readonly RulerLabel[]): readonly RulerLabel[] {
  return [...labels].sort((a, b) => b.number - a.number);
}

/** A label in as many lines as it takes; what follows the first is set in. */
function broken(text: string, letters: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > letters) {
      lines.push(line);
      line = `\u00a0\u00a0${word}`;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}
