import { CheckContext, type Evaluation, platedTaps, type WindowReading } from '../../engine/index.ts';
import { LINE_HEIGHT, WIDTH, widthOf } from './drawing.ts';

/** The ruler itself, and where the names of the bounds begin. */
export const BAND = { left: 204, right: 244 } as const;
export const REACH = 26;
// Two letters are left for the arrow of what lies beyond the ruler.
const LETTERS_ON_LINE = Math.floor((WIDTH - BAND.right - REACH) / widthOf('x')) - 2;
const TAP = 'setpoints.transformer.tap';

export interface RulerLabel {
  /** In the author's unit. */
  readonly number: number;
  readonly lines: readonly string[];
  readonly style: 'hard' | 'soft' | 'set' | 'recommended' | 'tap';
}

/** Reads the numbers of one window in the author's unit. */
export class WindowUnits {
  readonly #context: CheckContext;
  readonly #kind: string;
  readonly #key: string;

  constructor(evaluation: Evaluation, { window }: WindowReading) {
    this.#context = new CheckContext(evaluation, 0, '');
    this.#kind = window.kind;
    this.#key = window.setpoint;
  }

  /** The bare number; what is not finite stays so. */
  drawn(number: number): number {
    return Number.isFinite(number) ? this.#context.unrounded(number, this.#kind, this.#key).number : number;
  }

  shown(number: number): string {
    return this.#context.show(number, this.#kind, this.#key);
  }
}

/** The bounds by name, highest first. */
export function boundLabels({ bounds }: WindowReading, units: WindowUnits): readonly RulerLabel[] {
  const known = bounds.filter(({ number }) => Number.isFinite(number));
  return highestFirst(
    known.map(({ bound, number }) => {
      const sign = bound.side === 'lower' ? '≥' : '≤';
      const name = bound.limitName.replace(/^the /, '');
      const style = bound.hard ? 'hard' : 'soft';
      return { number: units.drawn(number), lines: broken(`${sign} ${units.shown(number)}, ${name}`), style };
    }),
  );
}

/** What is set, what is recommended, and of a transformer the other taps on its plate, highest first. */
export function settingLabels(
  evaluation: Evaluation,
  reading: WindowReading,
  units: WindowUnits,
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
    const lines = taps.length > 0 ? ['recommended:', words(recommended)] : [`recommended: ${words(recommended)}`];
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
function broken(text: string): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > LETTERS_ON_LINE) {
      lines.push(line);
      line = `\u00a0\u00a0${word}`;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}
