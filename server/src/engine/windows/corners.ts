import type { Corner, Toleranced } from '../links/corner.ts';
import type { Quantity } from '../quantity/types.ts';
import type { Evaluation } from '../values/evaluation.ts';
import type { Side } from './declare.ts';
import { type BoundReading, type CompiledWindow, readBounds, tighter } from './reading.ts';

/** Computes the values with the toleranced entries in a corner. */
export type EvaluateAt = (corner: Corner) => Evaluation;

type End = 'low' | 'high';

/** Entries, by their place in the list of toleranced ones, each at an end. */
type Ends = readonly (readonly [entry: number, end: End])[];

type WindowBounds = ReadonlyMap<CompiledWindow, readonly BoundReading[]>;

/** Single shifts of each toleranced entry, computed once and shared by all windows. */
export interface Shifts {
  readonly entries: readonly Toleranced[];
  readonly evaluateAt: EvaluateAt;
  /** Per entry, the bounds with it alone at its low and at its high end; the values behind them are let go of. */
  readonly alone: readonly { readonly low: WindowBounds; readonly high: WindowBounds }[];
}

export function shiftsOf(
  entries: readonly Toleranced[],
  windows: readonly CompiledWindow[],
  evaluateAt: EvaluateAt,
): Shifts {
  const boundsAt = (quantity: Quantity, end: End): WindowBounds => {
    const evaluation = evaluateAt(cornerOf([[quantity, end]]));
    return new Map(windows.map((compiled) => [compiled, readBounds(evaluation, compiled)]));
  };
  const alone = entries.map(({ quantity }) => ({ low: boundsAt(quantity, 'low'), high: boundsAt(quantity, 'high') }));
  return { entries, evaluateAt, alone };
}

/** A reading of a bound with the ends that make it so. */
interface Candidate {
  readonly reading: BoundReading;
  readonly ends: Ends;
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
  const corners = new CornerTable(compiled, shifts);
  return nominal.map((reading, at) => {
    const singles = shifts.alone.map(({ low, high }) => ({
      low: low.get(compiled)?.[at],
      high: high.get(compiled)?.[at],
    }));
    const ends = singles.flatMap(({ low, high }, entry): Ends => {
      const end = tighterEnd(reading, low, high);
      return end === undefined ? [] : [[entry, end]];
    });
    const candidates = [
      ...candidate(corners.read(ends, at), ends),
      ...singles.flatMap(({ low, high }, entry) => [
        ...candidate(low, [[entry, 'low']]),
        ...candidate(high, [[entry, 'high']]),
      ]),
    ];
    const worst = candidates.reduce(tightest, { reading, ends: [] });
    return { ...worst.reading, corner: named(worst.ends, shifts.entries) };
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

  read(ends: Ends, at: number): BoundReading | undefined {
    const key = ends.join();
    const readings = this.#read.get(key) ?? this.#compute(ends);
    this.#read.set(key, readings);
    return readings[at];
  }

  #compute(ends: Ends): readonly BoundReading[] {
    const pairs = ends.flatMap(([entry, end]): [Quantity, End][] => {
      const quantity = this.#shifts.entries[entry]?.quantity;
      return quantity === undefined ? [] : [[quantity, end]];
    });
    return readBounds(this.#shifts.evaluateAt(cornerOf(pairs)), this.#compiled);
  }
}

function cornerOf(pairs: readonly (readonly [Quantity, End])[]): Corner {
  return { ends: new Map(pairs) };
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

function tightest(worst: Candidate, other: Candidate): Candidate {
  return isTighter(worst.reading.bound.side, other.reading, worst.reading) ? other : worst;
}

function candidate(reading: BoundReading | undefined, ends: Ends): readonly Candidate[] {
  return reading === undefined ? [] : [{ reading, ends }];
}

function named(ends: Ends, entries: readonly Toleranced[]): BoundReading['corner'] {
  return ends.flatMap(([entry, end]) => {
    const key = entries[entry]?.key;
    return key === undefined ? [] : [{ key, end }];
  });
}
