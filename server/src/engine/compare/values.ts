import { CheckContext } from '../checks/context.ts';
import { kindNamed } from '../quantity/kinds.ts';
import { type Evaluation, State } from '../values/evaluation.ts';
import { explainInputs } from '../values/explain.ts';
import { HANDBOOK } from '../values/handbook.ts';
import { missingEntries } from '../values/missing.ts';
import type { NetworkNode } from '../values/network.ts';
import { type CasePair, casesOf } from './cases.ts';
import type { WindowChange } from './margins.ts';
import { type Difference, differenceOf, type Measured } from './measured.ts';

/** A worked value that came out differently. */
export interface ValueChange {
  readonly id: string;
  readonly title: string;
  /** Name of the case; undefined for a value of the whole file. */
  readonly case: string | undefined;
  readonly change: 'changed' | 'appeared' | 'gone';
  readonly before: Measured | undefined;
  readonly after: Measured | undefined;
  readonly difference: Difference | undefined;
  /** Share of the larger of the two numbers, in the internal unit; infinite where only one side has a number. */
  readonly relative: number;
  /** Why it is gone: the entries that it lacks, or that it does not concern the file any more. */
  readonly reason: string | undefined;
  /** Whether a bound of a setpoint's window that changed rests on it directly. */
  readonly isBasis: boolean;
}

/** Below this a value is called the same: a tenth of a percent. */
const LEAST_RELATIVE = 1e-3;
/** Of a temperature a share means nothing; K stand for it, so that the least change is a tenth of a kelvin. */
const TEMPERATURE_SCALE = 100;

/** The values that changed by more than a tenth of a percent: those behind changed windows first, then the most changed. */
export function compareValues(
  before: Evaluation,
  after: Evaluation,
  windows: readonly WindowChange[],
): readonly ValueChange[] {
  const basis = basisOf(after, windows);
  const changes = HANDBOOK.flatMap(({ id }) => {
    const node = after.network.byId.get(id);
    if (node === undefined) return [];
    return casesOf(node, before, after).flatMap((pair) => compareValue({ before, after, node, pair }, basis.has(id)));
  });
  return changes.sort(
    (a, b) => Number(b.isBasis) - Number(a.isBasis) || (b.relative > a.relative ? 1 : b.relative < a.relative ? -1 : 0),
  );
}

/** Ids of the values that the changed bounds rest on directly. */
function basisOf(after: Evaluation, windows: readonly WindowChange[]): ReadonlySet<string> {
  const changed = windows.flatMap(({ bounds }) => bounds.filter((each) => each.isMoved).map(({ id }) => `bound:${id}`));
  const nodes = changed.flatMap((id) => after.network.byId.get(id) ?? []);
  return new Set(nodes.flatMap((node) => explainInputs(after, node, 0).flatMap(({ id }) => id ?? [])));
}

interface Slot {
  readonly before: Evaluation;
  readonly after: Evaluation;
  readonly node: NetworkNode;
  readonly pair: CasePair;
}

function compareValue(slot: Slot, isBasis: boolean): readonly ValueChange[] {
  const { before, after, node, pair } = slot;
  const [old, now] = [before.numberOf(node, pair.before), after.numberOf(node, pair.after)];
  if (old === undefined && now === undefined) return [];
  const { id, title, kind } = node.declaration;
  const relative = old === undefined || now === undefined ? Number.POSITIVE_INFINITY : relativeOf(old, now, kind);
  if (!(relative > LEAST_RELATIVE)) return [];
  return [{ ...{ id, title, relative, isBasis }, case: pair.name, ...readingsOf(slot, old, now) }];
}

function relativeOf(before: number, after: number, kind: string): number {
  const apart = Math.abs(after - before);
  if (kindNamed(kind)?.point === 'temperature') return apart / TEMPERATURE_SCALE;
  return apart === 0 ? 0 : apart / Math.max(Math.abs(before), Math.abs(after));
}

function readingsOf({ before, after, node, pair }: Slot, old: number | undefined, now: number | undefined) {
  const { kind } = node.declaration;
  // Both in the units of the later file, so that they can be told apart at a glance.
  const context = new CheckContext(
    now === undefined ? before : after,
    now === undefined ? pair.before : pair.after,
    '',
  );
  return {
    change: old === undefined ? ('appeared' as const) : now === undefined ? ('gone' as const) : ('changed' as const),
    before: old === undefined ? undefined : measuredBy(context, old, kind),
    after: now === undefined ? undefined : measuredBy(context, now, kind),
    difference: old === undefined || now === undefined ? undefined : differenceBy(context, old, now, kind),
    reason: now === undefined ? reasonOf(after, node, pair.after) : undefined,
  };
}

/** @param key of the entry in whose unit it is told */
export function measuredBy(context: CheckContext, number: number, kind: string, key = ''): Measured {
  return { text: context.show(number, kind, key), number, unit: kindNamed(kind)?.internal ?? '' };
}

export function differenceBy(
  context: CheckContext,
  before: number,
  after: number,
  kindName: string,
  key = '',
): Difference | undefined {
  const kind = kindNamed(kindName);
  if (kind === undefined) return undefined;
  const { unit } = context.measure(after, kindName, key);
  // A pressure is told from the gauge's zero, so its share is counted from there too.
  const shift = kind.point === 'pressure' && !unit.endsWith('(a)') ? context.evaluation.installation.atmosphere : 0;
  return differenceOf(before - shift, after - shift, kind, unit.replace(/\([ga]\)$/, ''));
}

function reasonOf(after: Evaluation, node: NetworkNode, caseIndex: number): string {
  const state = after.state(node, caseIndex);
  if (state === State.notApplicable) return 'does not concern this lift, motor or case any more';
  if (state === State.none) return `there is no such number: ${after.methodOf(node, caseIndex)?.method.without ?? ''}`;
  return `lacks ${missingEntries(after, node, caseIndex).join(', ')}`;
}
