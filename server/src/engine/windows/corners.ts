import type { Corner, Toleranced } from '../links/corner.ts';
import type { Quantity } from '../quantity/types.ts';
import type { Evaluation } from '../values/evaluation.ts';
import type { Side } from './declare.ts';
import { type BoundReading, type CompiledWindow, readBounds, tighter } from './reading.ts';

/** Computes the values with the toleranced entries in a corner. */
export type EvaluateAt = (corner: Corner) => Evaluation;

type End = 'low' | 'high';

/** Single shifts of each toleranced entry, computed once and shared by all windows. */
export interface Shifts {
  readonly entries: readonly Toleranced[];
  readonly evaluateAt: EvaluateAt;
  /** Per entry, with it alone at its low and at its high end. */
  readonly alone: readonly { readonly low: Evaluation; readonly high: Evaluation }[];
}

export function shiftsOf(entries: readonly Toleranced[], evaluateAt: EvaluateAt): Shifts {
  const alone = entries.map(({ quantity }) => ({
    low: evaluateAt(cornerOf([[quantity, 'low']])),
    high: evaluateAt(cornerOf([[quantity, 'high']])),
  }));
  return { entries, evaluateAt, alone };
}

/**
 * The bounds of a window with each in its worst corner. Which end of each entry tightens a bound is found with that
 * entry alone; then all are taken there at once, since the bounds rise or fall with each entry throughout. What a single
 * shift makes tighter still is kept, should one not.
 */
export function inWorstCorner(
  compiled: CompiledWindow,
  nominal: readonly BoundReading[],
  shifts: Shifts,
): readonly BoundReading[] {
  if (shifts.entries.length === 0) return nominal;
  const alone = shifts.alone.map(({ low, high }) => ({
    low: readBounds(low, compiled),
    high: readBounds(high, compiled),
  }));
  const corners = new CornerTable(compiled, shifts);
  return nominal.map((reading, at) => {
    const ends = alone.map((each) => tighterEnd(reading, each.low[at], each.high[at]));
    const candidates = [
      corners.read(ends, at),
      ...alone.flatMap((each, entry) => [
        named(each.low[at], shifts.entries, oneEnd(entry, 'low')),
        named(each.high[at], shifts.entries, oneEnd(entry, 'high')),
      ]),
    ];
    return candidates.reduce<BoundReading>((worst, each) => tightest(worst, each), reading);
  });
}

/** Readings of all bounds of a window by corner: many bounds share one. */
class CornerTable {
  readonly #compiled: CompiledWindow;
  readonly #shifts: Shifts;
  readonly #read = new Map<string, readonly BoundReading[]>();

  constructor(compiled: CompiledWindow, shifts: Shifts) {
    this.#compiled = compiled;
    this.#shifts = shifts;
  }

  read(ends: readonly (End | undefined)[], at: number): BoundReading | undefined {
    const key = ends.join();
    const readings = this.#read.get(key) ?? this.#compute(ends);
    this.#read.set(key, readings);
    return named(readings[at], this.#shifts.entries, ends);
  }

  #compute(ends: readonly (End | undefined)[]): readonly BoundReading[] {
    const pairs = this.#shifts.entries.flatMap(({ quantity }, at): [Quantity, End][] => {
      const end = ends[at];
      return end === undefined ? [] : [[quantity, end]];
    });
    return readBounds(this.#shifts.evaluateAt(cornerOf(pairs)), this.#compiled);
  }
}

function cornerOf(pairs: readonly (readonly [Quantity, End])[]): Corner {
  return { ends: new Map(pairs) };
}

function oneEnd(entry: number, end: End): (End | undefined)[] {
  const ends: (End | undefined)[] = [];
  ends[entry] = end;
  return ends;
}

function tighterEnd(
  nominal: BoundReading,
  low: BoundReading | undefined,
  high: BoundReading | undefined,
): End | undefined {
  const { side } = nominal.bound;
  const lowTightens = isTighter(side, low, nominal);
  const highTightens = isTighter(side, high, nominal);
  if (lowTightens && highTightens) return isTighter(side, low, high) ? 'low' : 'high';
  return lowTightens ? 'low' : highTightens ? 'high' : undefined;
}

function isTighter(side: Side, a: BoundReading | undefined, b: BoundReading | undefined): boolean {
  return a !== undefined && Number.isFinite(a.number) && tighter(side, a.number, b?.number ?? Number.NaN);
}

function tightest(worst: BoundReading, other: BoundReading | undefined): BoundReading {
  return other !== undefined && isTighter(worst.bound.side, other, worst) ? other : worst;
}

function named(
  reading: BoundReading | undefined,
  entries: readonly Toleranced[],
  ends: readonly (End | undefined)[],
): BoundReading | undefined {
  if (reading === undefined) return undefined;
  const corner = entries.flatMap(({ key }, at) => (ends[at] === undefined ? [] : [{ key, end: ends[at] as End }]));
  return { ...reading, corner };
}
