import { type Evaluation, State } from '../values/evaluation.ts';
import { missingEntries, missingInputs } from '../values/missing.ts';
import type { NetworkNode } from '../values/network.ts';
import type { CompiledCondition, CompiledInput } from '../values/readers.ts';
import type { Bound, Side, Window, WindowEnds } from './declare.ts';

/** A window with its conditions, inputs and bounds made ready to be read. */
export interface CompiledWindow {
  readonly window: Window;
  readonly conditions: readonly CompiledCondition[];
  readonly compared: CompiledInput;
  readonly bounds: readonly { readonly bound: Bound; readonly node: NetworkNode }[];
  readonly recommendation: readonly CompiledInput[];
}

/** What one bound comes to. */
export interface BoundReading {
  readonly bound: Bound;
  readonly node: NetworkNode;
  readonly status: 'bounds' | 'missing' | 'not-applicable';
  /** The tightest number over the cases that have one, in the internal unit; NaN if none has. */
  readonly number: number;
  /** The case that sets it; undefined if none does. */
  readonly caseIndex: number | undefined;
  /** What keeps it from being known in every case. */
  readonly missing: readonly string[];
  /** The ends of toleranced entries that make it so tight; empty where it is as tight with all as written. */
  readonly corner: readonly { readonly key: string; readonly end: 'low' | 'high' }[];
}

/** A window as read for one installation. */
export interface WindowReading {
  readonly window: Window;
  readonly applies: boolean;
  /** The setpoint in the internal unit; undefined where it is absent or unreadable. */
  readonly setpoint: number | undefined;
  /** What keeps the setpoint from being known. */
  readonly missing: readonly string[];
  readonly bounds: readonly BoundReading[];
  readonly ends: WindowEnds;
  /** Within the window, after its rule; undefined where the rule gives none or the window is empty. */
  readonly recommended: number | undefined;
}

/** The bounds of a window with all entries as written. */
export function readBounds(evaluation: Evaluation, compiled: CompiledWindow): readonly BoundReading[] {
  return compiled.bounds.map(({ bound, node }) => readBound(evaluation, bound, node));
}

/** A setpoint against bounds that were read, in whatever corner. */
export function readWindow(
  evaluation: Evaluation,
  compiled: CompiledWindow,
  bounds: readonly BoundReading[],
): WindowReading {
  const { window } = compiled;
  const applies =
    compiled.conditions.every(({ test }) => test(evaluation, 0) === 'holds') &&
    evaluation.allApply([compiled.compared], 0);
  const read = compiled.compared.read(evaluation, 0);
  const setpoint = typeof read === 'number' ? read : undefined;
  const ends = endsOf(bounds);
  return {
    window,
    applies,
    setpoint,
    missing: setpoint === undefined ? missingInputs(evaluation, [compiled.compared], 0) : [],
    bounds,
    ends,
    recommended: applies ? recommendedIn(evaluation, compiled, ends) : undefined,
  };
}

/** How far a number is inside a bound, in the internal unit; negative beyond it. */
export function insideBy({ bound, number }: BoundReading, setpoint: number): number {
  return bound.side === 'lower' ? setpoint - number : number - setpoint;
}

/** Whether a number is beyond a bound. Equal is inside, unless the bound excludes itself. */
export function isBeyond(reading: BoundReading, setpoint: number): boolean {
  const inside = insideBy(reading, setpoint);
  // Units that convert through inexact factors must not push an equal number over the line.
  const rounding = 1e-9 * Math.abs(reading.number);
  return reading.bound.excludesItself ? !(inside > rounding) : inside < -rounding;
}

function readBound(evaluation: Evaluation, bound: Bound, node: NetworkNode): BoundReading {
  const times = node.perCase ? evaluation.caseCount : 1;
  let number = Number.NaN;
  let caseIndex: number | undefined;
  const missing = new Set<string>();
  let concerned = false;
  for (let at = 0; at < times; at++) {
    const state = evaluation.state(node, at);
    if (state === State.notApplicable) continue;
    concerned = true;
    const here = evaluation.numberOf(node, at);
    if (here === undefined) for (const each of missingEntries(evaluation, node, at)) missing.add(each);
    else if (!(tighter(bound.side, number, here) || number === here)) {
      number = here;
      caseIndex = node.perCase ? at : evaluation.bindingCase(node);
    }
  }
  if (node.perCase && times === 0) missing.add('operation.cases');
  const status = missing.size > 0 ? 'missing' : concerned ? 'bounds' : 'not-applicable';
  return { bound, node, status, number, caseIndex, missing: [...missing], corner: [] };
}

/** Whether a bound at `a` leaves less room than one at `b`. */
export function tighter(side: Side, a: number, b: number): boolean {
  return side === 'lower' ? a > b : a < b;
}

function endsOf(bounds: readonly BoundReading[]): WindowEnds {
  const numbers = (side: Side, hardOnly: boolean) =>
    bounds
      .filter(({ bound, number }) => bound.side === side && (bound.hard || !hardOnly) && Number.isFinite(number))
      .map(({ number }) => number);
  return {
    hardLower: Math.max(Number.NEGATIVE_INFINITY, ...numbers('lower', true)),
    hardUpper: Math.min(Number.POSITIVE_INFINITY, ...numbers('upper', true)),
    lower: Math.max(Number.NEGATIVE_INFINITY, ...numbers('lower', false)),
    upper: Math.min(Number.POSITIVE_INFINITY, ...numbers('upper', false)),
  };
}

function recommendedIn(evaluation: Evaluation, compiled: CompiledWindow, ends: WindowEnds): number | undefined {
  const rule = compiled.window.recommendation;
  if (rule === undefined || ends.hardLower > ends.hardUpper) return undefined;
  const seen = evaluation.gather(compiled.recommendation, 0);
  if (seen === undefined) return undefined;
  const number = (rule.choose as (seen: unknown, ends: WindowEnds) => number)(seen, ends);
  const fits = Number.isFinite(number) && number >= ends.hardLower && number <= ends.hardUpper;
  return fits ? number : undefined;
}

/** The two hard bounds between which nothing can be chosen; undefined where something can. */
export function crossing(
  reading: WindowReading,
  choices: readonly number[] | undefined,
): readonly [BoundReading, BoundReading] | undefined {
  const { hardLower, hardUpper } = reading.ends;
  const hasChoice = choices === undefined || choices.some((each) => each >= hardLower && each <= hardUpper);
  if (!(hardLower > hardUpper) && hasChoice) return undefined;
  const at = (side: Side, number: number) =>
    reading.bounds.find((each) => each.bound.side === side && each.bound.hard && each.number === number);
  const lower = at('lower', hardLower);
  const upper = at('upper', hardUpper);
  return lower === undefined || upper === undefined ? undefined : [lower, upper];
}

/** The bounds of one side that a setpoint is beyond, the one that it is furthest beyond first. */
export function violated(reading: WindowReading, side: Side, hard: boolean): readonly BoundReading[] {
  const { setpoint } = reading;
  if (setpoint === undefined) return [];
  return reading.bounds
    .filter((each) => each.bound.side === side && each.bound.hard === hard && Number.isFinite(each.number))
    .filter((each) => isBeyond(each, setpoint))
    .sort((a, b) => insideBy(a, setpoint) - insideBy(b, setpoint));
}
