import type { Worked } from '../check-document.ts';
import { CheckContext, differenceKind } from '../checks/context.ts';
import type { Evaluation } from '../values/evaluation.ts';
import { type BoundReading, insideBy, type WindowReading } from '../windows/reading.ts';
import type { Difference, Measured } from './measured.ts';
import { differenceBy, measuredBy } from './values.ts';

/** A setpoint whose window, or place in it, is not the same on both sides. */
export interface WindowChange {
  /** Dotted key of the setpoint. */
  readonly setpoint: string;
  /** As a noun with its article. */
  readonly title: string;
  /** Undefined where there is no such setpoint at all. */
  readonly before: WindowSide | undefined;
  readonly after: WindowSide | undefined;
  /** Change of the margin to the nearest hard bound. */
  readonly difference: Difference | undefined;
  /** All bounds that concern either side. */
  readonly bounds: readonly BoundChange[];
}

export interface WindowSide {
  /** What is compared with the bounds; undefined where it is not known. */
  readonly set: Measured | undefined;
  /** Distance to the nearest hard bound; below zero beyond it. */
  readonly margin: Measured | undefined;
  /** Id of that bound. */
  readonly nearest: string | undefined;
  readonly recommended: Measured | undefined;
  /** What keeps the setpoint from being known. */
  readonly missing: readonly string[];
}

export interface BoundChange {
  readonly id: string;
  readonly name: string;
  readonly side: 'lower' | 'upper';
  readonly hard: boolean;
  readonly before: BoundSide | undefined;
  readonly after: BoundSide | undefined;
  /** Whether the bound itself is elsewhere, not only the setpoint. */
  readonly isMoved: boolean;
}

export interface BoundSide {
  readonly limit: Measured | undefined;
  readonly margin: Measured | undefined;
  /** Name of the case that sets it. */
  readonly case: string | undefined;
  readonly missing: readonly string[];
}

/** Within this part of a bound it has not moved. */
const LEAST = 1e-3;

/** The windows that changed, in the order of the setpoints. */
export function compareWindows(before: Worked, after: Worked): readonly WindowChange[] {
  return after.windows.flatMap((now) => {
    const old = before.windows.find(({ window }) => window.setpoint === now.window.setpoint);
    const change =
      old === undefined ? undefined : new WindowPair(before.evaluation, old, after.evaluation, now).change();
    return change === undefined ? [] : [change];
  });
}

class WindowPair {
  readonly #old: WindowReading;
  readonly #now: WindowReading;
  readonly #before: CheckContext;
  readonly #after: CheckContext;
  /** In whose units all is told. */
  readonly #context: CheckContext;

  constructor(before: Evaluation, old: WindowReading, after: Evaluation, now: WindowReading) {
    this.#old = old;
    this.#now = now;
    this.#before = new CheckContext(before, 0, '');
    this.#after = new CheckContext(after, 0, '');
    this.#context = now.applies ? this.#after : this.#before;
  }

  change(): WindowChange | undefined {
    if (!this.#isChanged()) return undefined;
    const { setpoint, title, kind } = this.#now.window;
    const [before, after] = [this.#side(this.#old), this.#side(this.#now)];
    const [from, to] = [before?.margin?.number, after?.margin?.number];
    const isBoth = from !== undefined && to !== undefined && isMoved(from, to);
    return {
      ...{ setpoint, title, before, after },
      difference: isBoth ? differenceBy(this.#context, from, to, differenceKind(kind), setpoint) : undefined,
      bounds: this.#bounds(),
    };
  }

  #isChanged(): boolean {
    const [old, now] = [this.#old, this.#now];
    if (!old.applies && !now.applies) return false;
    if (old.applies !== now.applies || isMoved(old.setpoint, now.setpoint)) return true;
    return now.bounds.some((bound, at) => isMovedBound(old.bounds[at], bound));
  }

  #side(reading: WindowReading): WindowSide | undefined {
    if (!reading.applies) return undefined;
    const { setpoint, recommended, missing } = reading;
    const nearest = nearestOf(reading);
    return {
      set: this.#point(setpoint),
      margin: nearest === undefined || setpoint === undefined ? undefined : this.#distance(insideBy(nearest, setpoint)),
      nearest: nearest?.bound.id,
      recommended: this.#point(recommended),
      missing,
    };
  }

  #bounds(): readonly BoundChange[] {
    return this.#now.bounds.flatMap((now, at) => {
      const old = this.#old.bounds[at];
      const before = this.#boundSide(this.#old, old, this.#before);
      const after = this.#boundSide(this.#now, now, this.#after);
      if (before === undefined && after === undefined) return [];
      const { id, limitName, side, hard } = now.bound;
      return [{ ...{ id, name: limitName, side, hard, before, after }, isMoved: isMovedBound(old, now) }];
    });
  }

  #boundSide(window: WindowReading, reading: BoundReading | undefined, own: CheckContext): BoundSide | undefined {
    if (reading === undefined || !window.applies || reading.status === 'not-applicable') return undefined;
    const { number, caseIndex, missing } = reading;
    const isKnown = Number.isFinite(number);
    const { setpoint } = window;
    return {
      limit: isKnown ? this.#point(number) : undefined,
      margin: isKnown && setpoint !== undefined ? this.#distance(insideBy(reading, setpoint)) : undefined,
      case: caseIndex === undefined ? undefined : own.evaluation.caseName(caseIndex),
      missing,
    };
  }

  #point(number: number | undefined): Measured | undefined {
    const { kind, setpoint } = this.#now.window;
    return number === undefined ? undefined : measuredBy(this.#context, number, kind, setpoint);
  }

  #distance(number: number): Measured {
    const { kind, setpoint } = this.#now.window;
    const text = this.#context.showDifference(number, kind, setpoint);
    return { ...measuredBy(this.#context, number, differenceKind(kind)), text };
  }
}

function nearestOf({ bounds, setpoint }: WindowReading): BoundReading | undefined {
  if (setpoint === undefined) return undefined;
  const hard = bounds.filter(({ bound, number }) => bound.hard && Number.isFinite(number));
  return hard.reduce<BoundReading | undefined>(
    (best, each) => (best === undefined || insideBy(each, setpoint) < insideBy(best, setpoint) ? each : best),
    undefined,
  );
}

function isMovedBound(before: BoundReading | undefined, after: BoundReading): boolean {
  if (before === undefined || before.status !== after.status) return true;
  return isMoved(finite(before.number), finite(after.number));
}

function finite(number: number): number | undefined {
  return Number.isFinite(number) ? number : undefined;
}

function isMoved(before: number | undefined, after: number | undefined): boolean {
  if (before === undefined || after === undefined) return before !== after;
  return Math.abs(after - before) > LEAST * Math.max(Math.abs(before), Math.abs(after));
}
