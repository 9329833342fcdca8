/** A stretch of numbers, in a reader's unit, laid along a stretch of the picture. */
export class Scale {
  readonly from: number;
  readonly to: number;
  readonly #start: number;
  readonly #end: number;

  constructor(range: Range, start: number, end: number) {
    this.from = range.from;
    this.to = range.to;
    this.#start = start;
    this.#end = end;
  }

  at(number: number): number {
    return this.#start + ((number - this.from) / (this.to - this.from)) * (this.#end - this.#start);
  }

  covers(number: number): boolean {
    return number >= this.from && number <= this.to;
  }
}

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** The range over finite numbers; the unit interval if there are none. */
export function rangeOf(numbers: readonly number[]): Range {
  const finite = numbers.filter(Number.isFinite);
  return finite.length === 0 ? { from: 0, to: 1 } : { from: Math.min(...finite), to: Math.max(...finite) };
}

/** A range with room on either side, in parts of its own size; never empty. */
export function widened({ from, to }: Range, before: number, after: number): Range {
  const size = to - from || Math.abs(to) || 1;
  return { from: from - before * size, to: to + after * size };
}

/** A range that begins and ends on a tick. */
export function rounded(range: Range, most: number): Range {
  const step = stepOf(range, most);
  return { from: Math.floor(range.from / step + 1e-9) * step, to: Math.ceil(range.to / step - 1e-9) * step };
}

/** Round numbers inside a range, at most so many: multiples of 1, 2 or 5 times a power of ten. */
export function ticks(range: Range, most: number): readonly Tick[] {
  const step = stepOf(range, most);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const found: Tick[] = [];
  for (let count = Math.ceil(range.from / step - 1e-9); count * step <= range.to + 1e-9 * step; count++) {
    // Counting in whole steps keeps 0.1 + 0.2 off the axis; adding zero turns -0 into 0.
    const number = count * step + 0;
    found.push({ number, text: number.toFixed(decimals) });
  }
  return found;
}

export interface Tick {
  readonly number: number;
  readonly text: string;
}

function stepOf({ from, to }: Range, most: number): number {
  const least = (to - from) / Math.max(1, most) || 1;
  const power = 10 ** Math.floor(Math.log10(least));
  const factor = [1, 2, 5, 10].find((each) => each * power >= least * (1 - 1e-9)) ?? 10;
  return factor * power;
}
