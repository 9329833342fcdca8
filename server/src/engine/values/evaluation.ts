import type { Installation, Located } from '../links/installation.ts';
import { stepsOf } from '../syntax/tree.ts';
import type { Changes } from './changes.ts';
import type { Input, Method, Outcome } from './declare.ts';
import { Entries } from './entries.ts';
import type { LimitTable } from './limits.ts';
import type { Steps } from './lookups.ts';
import type { CompiledMethod, Network, NetworkNode } from './network.ts';
import { type CompiledInput, LACKING, type Verdict } from './readers.ts';
import { rowNodesAt } from './rows.ts';

/** What became of a value in one case. */
export const State = {
  available: 1,
  /** An input is missing; which, `missing.ts` says. */
  missing: 2,
  /** No method concerns this lift, motor or case. */
  notApplicable: 3,
  /** All inputs are there and there is no such number: no intersection, no bracket, a division by nothing. */
  none: 4,
} as const;
export type State = (typeof State)[keyof typeof State];

const SUPPLY = [undefined, 'low', 'high'] as const;

/**
 * The values of one installation: one array of numbers (value × case) with a state byte beside each. Nothing about
 * where a number came from is kept; `explain.ts` finds it again from the declarations when somebody asks.
 */
export class Evaluation {
  readonly installation: Installation;
  readonly network: Network;
  readonly caseCount: number;
  /** What the working out of values threw, by id. Such a value counts as missing, and is itself what is missing. */
  readonly broken = new Map<string, unknown>();
  readonly entries: Entries;
  /** What reads otherwise than in the evaluation that this one was made from. */
  readonly changes: Changes | undefined;
  readonly #limits: LimitTable;
  /** Entries that no declaration names, as asked for by path; null for one that is not there. */
  readonly #others = new Map<string, Located | null>();
  readonly #numbers: Float64Array;
  readonly #states: Uint8Array;
  readonly #methods: Uint8Array;
  readonly #supplies: Uint8Array;
  readonly #bindingCases: Int16Array;

  /** @param before one of the same file and with the same limits, of which all that still holds is taken over */
  constructor(installation: Installation, network: Network, limits: LimitTable, before?: Evaluation) {
    this.installation = installation;
    this.network = network;
    this.#limits = limits;
    this.caseCount = installation.caseNodes.length;
    this.entries = new Entries(installation, network.lookups);
    const size = network.nodes.length * Math.max(1, this.caseCount);
    this.#numbers = new Float64Array(size).fill(Number.NaN);
    this.#states = new Uint8Array(size);
    this.#methods = new Uint8Array(size);
    this.#supplies = new Uint8Array(size);
    this.#bindingCases = new Int16Array(size).fill(-1);
    if (before !== undefined && before.caseCount === this.caseCount && before.broken.size === 0) {
      this.changes = this.entries.changesSince(before.entries);
      this.#follow(before, this.changes);
    } else for (const node of network.nodes) this.#evaluate(node);
  }

  // What a declaration can read

  entryNumber(path: string, steps?: Steps): number | undefined {
    const located = this.locate(path, steps);
    return located === undefined ? undefined : finite(this.installation.number(located));
  }

  entryText(path: string, steps?: Steps): string | undefined {
    const located = this.locate(path, steps);
    return located === undefined ? undefined : this.installation.text(located);
  }

  /** @param steps the path taken apart, where that was done beforehand */
  locate(path: string, steps?: Steps): Located | undefined {
    const at = this.network.lookups.knownEntry(path);
    if (at !== undefined) return this.entries.file.located(at);
    const known = this.#others.get(path);
    if (known !== undefined) return known ?? undefined;
    const located = this.installation.locateFrom(this.installation.document.tree.root, steps ?? stepsOf(path));
    this.#others.set(path, located ?? null);
    return located;
  }

  locateInCase(caseIndex: number, key: string): Located | undefined {
    const at = this.network.lookups.knownCaseKey(key);
    if (at !== undefined) return this.entries.inCase(caseIndex).located(at);
    const node = this.installation.caseNodes[caseIndex];
    return node === undefined ? undefined : this.installation.locateFrom(node, stepsOf(key));
  }

  caseHas(caseIndex: number, key: string): boolean {
    return this.locateInCase(caseIndex, key) !== undefined;
  }

  caseNumber(caseIndex: number, key: string): number | undefined {
    const located = this.locateInCase(caseIndex, key);
    return located === undefined ? undefined : finite(this.installation.number(located));
  }

  caseText(caseIndex: number, key: string): string | undefined {
    const located = this.locateInCase(caseIndex, key);
    return located === undefined ? undefined : this.installation.text(located);
  }

  eachCaseText(key: string): readonly (string | undefined)[] {
    return this.installation.caseNodes.map((_, index) => this.caseText(index, key));
  }

  caseName(caseIndex: number): string {
    return this.caseText(caseIndex, 'name') ?? `case ${caseIndex + 1}`;
  }

  limit(name: string): number {
    return this.#limits.number(name);
  }

  numberOf(node: NetworkNode, caseIndex: number): number | undefined {
    const slot = this.#slot(node, caseIndex);
    return this.#states[slot] === State.available ? this.#numbers[slot] : undefined;
  }

  /** The value in all cases, NaN where it has none; undefined if `complete` and a case lacks it. */
  eachNumber(node: NetworkNode, complete: boolean): readonly number[] | undefined {
    const numbers: number[] = [];
    for (let at = 0; at < this.caseCount; at++) {
      const state = this.state(node, at);
      if (complete && state !== State.available && state !== State.notApplicable) return undefined;
      numbers.push(this.numberOf(node, at) ?? Number.NaN);
    }
    return this.caseCount === 0 ? undefined : numbers;
  }

  /** Whether a value concerns a case at all: its lift, its motor, its equipment. */
  applies(node: NetworkNode, caseIndex: number): boolean {
    return this.state(node, caseIndex) !== State.notApplicable;
  }

  /** Whether a value concerns one of the cases; without a case nothing speaks against it. */
  appliesSomewhere(node: NetworkNode): boolean {
    return this.caseCount === 0 || this.installation.caseNodes.some((_, at) => this.applies(node, at));
  }

  /** The rows behind an input that was declared as rows. */
  readRows<T>({ source }: Input<readonly T[]>): readonly T[] | undefined {
    if (source.from !== 'rows') return undefined;
    return this.entries.rows(this.network.lookups.list(source)) as readonly T[] | undefined;
  }

  // What others read of it

  number(id: string, caseIndex = 0): number | undefined {
    const node = this.network.byId.get(id);
    return node === undefined ? undefined : this.numberOf(node, caseIndex);
  }

  state(node: NetworkNode, caseIndex: number): State {
    return this.#states[this.#slot(node, caseIndex)] as State;
  }

  methodOf(node: NetworkNode, caseIndex: number): CompiledMethod | undefined {
    return node.methods[this.#methods[this.#slot(node, caseIndex)] ?? 0];
  }

  supply(node: NetworkNode, caseIndex: number): 'low' | 'high' | undefined {
    return SUPPLY[this.#supplies[this.#slot(node, caseIndex)] ?? 0];
  }

  /** The case that decided a value of the whole file. */
  bindingCase(node: NetworkNode): number | undefined {
    const at = this.#bindingCases[this.#slot(node, 0)] ?? -1;
    return at < 0 ? undefined : at;
  }

  /** Whether none of the inputs is a value that does not concern the case. */
  allApply(inputs: readonly CompiledInput[], caseIndex: number): boolean {
    for (const { applies } of inputs) if (applies !== undefined && !applies(this, caseIndex)) return false;
    return true;
  }

  /** Gathers inputs by name; undefined where a required one lacks. */
  gather(inputs: readonly CompiledInput[], caseIndex: number): Record<string, unknown> | undefined {
    const seen: Record<string, unknown> = {};
    for (const input of inputs) {
      const reading = input.read(this, caseIndex);
      if (reading === LACKING) return undefined;
      seen[input.name] = reading;
    }
    return seen;
  }

  #slot(node: NetworkNode, caseIndex: number): number {
    return node.index * Math.max(1, this.caseCount) + (node.perCase ? caseIndex : 0);
  }

  /** Takes over what was worked out before, and works out again what rests on something that has changed. */
  #follow(before: Evaluation, changes: Changes): void {
    this.#numbers.set(before.#numbers);
    this.#states.set(before.#states);
    this.#methods.set(before.#methods);
    this.#supplies.set(before.#supplies);
    this.#bindingCases.set(before.#bindingCases);
    for (const node of this.network.nodes) {
      if (!node.methods.some(({ reads }) => changes.touch(reads))) continue;
      this.#clear(node);
      this.#evaluate(node);
      if (this.#differs(node, before)) changes.noteValue(node.index);
    }
  }

  #clear(node: NetworkNode): void {
    const from = this.#slot(node, 0);
    const to = from + Math.max(1, this.caseCount);
    this.#numbers.fill(Number.NaN, from, to);
    this.#states.fill(0, from, to);
    this.#methods.fill(0, from, to);
    this.#supplies.fill(0, from, to);
    this.#bindingCases.fill(-1, from, to);
  }

  /** Whether a value came out otherwise. Of one that is missing, what keeps it so may be something else now. */
  #differs(node: NetworkNode, before: Evaluation): boolean {
    const from = this.#slot(node, 0);
    for (let slot = from; slot < from + Math.max(1, this.caseCount); slot++) {
      if (this.#states[slot] === State.missing || this.#states[slot] !== before.#states[slot]) return true;
      if (this.#methods[slot] !== before.#methods[slot] || this.#supplies[slot] !== before.#supplies[slot]) return true;
      if (!Object.is(this.#numbers[slot], before.#numbers[slot])) return true;
      if (this.#bindingCases[slot] !== before.#bindingCases[slot]) return true;
    }
    return false;
  }

  #evaluate(node: NetworkNode): void {
    const times = node.perCase ? this.caseCount : 1;
    for (let at = 0; at < times; at++) this.#tryCase(node, at);
    // Without any case a value per case has no place to live in; say that its inputs lack.
    if (node.perCase && times === 0) this.#states[this.#slot(node, 0)] = State.missing;
  }

  #tryCase(node: NetworkNode, caseIndex: number): void {
    try {
      this.#evaluateCase(node, caseIndex);
    } catch (error) {
      this.broken.set(node.declaration.id, error);
      this.#states[this.#slot(node, caseIndex)] = State.missing;
    }
  }

  #evaluateCase(node: NetworkNode, caseIndex: number): void {
    const slot = this.#slot(node, caseIndex);
    let state: State = State.notApplicable;
    for (let at = 0; at < node.methods.length; at++) {
      const compiled = node.methods[at] as CompiledMethod;
      const verdict = verdictOf(this, compiled, caseIndex);
      // A method that rests on what does not apply here does not apply either: nothing could be entered to mend it.
      if (verdict === 'fails' || !this.allApply(compiled.inputs, caseIndex)) continue;
      const seen = verdict === 'holds' ? this.gather(compiled.inputs, caseIndex) : undefined;
      if (seen !== undefined) {
        this.#methods[slot] = at;
        state = this.#keep(slot, compiled.method, seen);
        break;
      }
      // The first method that applies is the one whose missing inputs are worth naming.
      if (state === State.notApplicable) this.#methods[slot] = at;
      state = State.missing;
    }
    this.#states[slot] = state;
  }

  #keep(slot: number, method: Method, seen: Record<string, unknown>): State {
    const result = (method.compute as (seen: unknown) => number | Outcome)(seen);
    const outcome = typeof result === 'number' ? { number: result } : result;
    if (!Number.isFinite(outcome.number)) return State.none;
    this.#numbers[slot] = outcome.number;
    this.#supplies[slot] = SUPPLY.indexOf(outcome.supply);
    this.#bindingCases[slot] = outcome.caseIndex ?? -1;
    return State.available;
  }

  /** Where the rows of a list stand; a mapping counts as its only row. */
  rowNodes(path: string, steps?: Steps): readonly Located[] | undefined {
    const located = this.locate(path, steps);
    return located === undefined ? undefined : rowNodesAt(located);
  }
}

/** Whether all conditions hold; one that fails settles it, whatever else is not known. */
export function verdictOf(
  evaluation: Evaluation,
  compiled: Pick<CompiledMethod, 'conditions'>,
  caseIndex: number,
): Verdict {
  let verdict: Verdict = 'holds';
  for (const { test } of compiled.conditions) {
    const each = test(evaluation, caseIndex);
    if (each === 'fails') return each;
    if (each === 'lacking') verdict = each;
  }
  return verdict;
}

function finite(number: number): number | undefined {
  return Number.isFinite(number) ? number : undefined;
}
