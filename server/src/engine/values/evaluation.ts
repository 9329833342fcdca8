import type { Installation, Located } from '../links/installation.ts';
import { stepsOf } from '../syntax/tree.ts';
import type { Input, Method, Outcome, RowsSource } from './declare.ts';
import type { LimitTable } from './limits.ts';
import type { CompiledMethod, Network, NetworkNode } from './network.ts';
import { type CompiledInput, LACKING, type Verdict } from './readers.ts';

type Steps = readonly (string | number)[];

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
  readonly #limits: LimitTable;
  readonly #numbers: Float64Array;
  readonly #states: Uint8Array;
  readonly #methods: Uint8Array;
  readonly #supplies: Uint8Array;
  readonly #bindingCases: Int16Array;
  /** Entries by path; null for one that was looked for and is not there. */
  readonly #located = new Map<string, Located | null>();
  readonly #locatedInCase: readonly Map<string, Located | null>[];
  readonly #rows = new Map<RowsSource, readonly Record<string, unknown>[] | undefined>();

  constructor(installation: Installation, network: Network, limits: LimitTable) {
    this.installation = installation;
    this.network = network;
    this.#limits = limits;
    this.caseCount = installation.caseNodes.length;
    this.#locatedInCase = installation.caseNodes.map(() => new Map());
    const size = network.nodes.length * Math.max(1, this.caseCount);
    this.#numbers = new Float64Array(size).fill(Number.NaN);
    this.#states = new Uint8Array(size);
    this.#methods = new Uint8Array(size);
    this.#supplies = new Uint8Array(size);
    this.#bindingCases = new Int16Array(size).fill(-1);
    for (const node of network.nodes) this.#evaluate(node);
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

  has(path: string, steps: Steps): boolean {
    return this.locate(path, steps) !== undefined;
  }

  /** @param steps the path taken apart, where that was done beforehand */
  locate(path: string, steps?: Steps): Located | undefined {
    const known = this.#located.get(path);
    if (known !== undefined) return known ?? undefined;
    const located = this.installation.locateFrom(this.installation.document.tree.root, steps ?? stepsOf(path));
    this.#located.set(path, located ?? null);
    return located;
  }

  locateInCase(caseIndex: number, key: string): Located | undefined {
    const entries = this.#locatedInCase[caseIndex];
    if (entries === undefined) return undefined;
    const known = entries.get(key);
    if (known !== undefined) return known ?? undefined;
    const located = this.installation.locateFrom(this.installation.caseNodes[caseIndex] as number, stepsOf(key));
    entries.set(key, located ?? null);
    return located;
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

  /** The rows of a list; undefined if the list is absent or a cell that must be there is not. */
  rows(source: RowsSource, steps: Steps): readonly Record<string, unknown>[] | undefined {
    if (this.#rows.has(source)) return this.#rows.get(source);
    const read = this.#readRows(source, steps);
    this.#rows.set(source, read);
    return read;
  }

  /** The rows behind an input that was declared as rows. */
  readRows<T>(input: Input<readonly T[]>): readonly T[] | undefined {
    const { source } = input;
    return source.from === 'rows' ? (this.rows(source, stepsOf(source.path)) as readonly T[] | undefined) : undefined;
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

  #readRows(source: RowsSource, steps: Steps): readonly Record<string, unknown>[] | undefined {
    const nodes = this.rowNodes(source.path, steps);
    if (nodes === undefined || nodes.length === 0) return undefined;
    const rows = nodes.map((located) => readRow(this.installation, located, source.columns));
    return rows.includes(undefined) ? undefined : (rows as Record<string, unknown>[]);
  }

  /** Where the rows of a list stand; a mapping counts as its only row. */
  rowNodes(path: string, steps?: Steps): readonly Located[] | undefined {
    const located = this.locate(path, steps);
    if (located === undefined) return undefined;
    const { document, node } = located;
    if (!document.tree.isSequence(node)) return [located];
    return [...document.tree.children(node)].map((item) => ({ document, node: item }));
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

function readRow(
  installation: Installation,
  row: Located,
  columns: RowsSource['columns'],
): Record<string, unknown> | undefined {
  const cells: Record<string, unknown> = {};
  for (const [name, column] of Object.entries(columns)) {
    const located = cellOf(installation, row, name);
    const cell = located === undefined ? undefined : readCell(installation, located, column);
    if (cell === undefined && !column.endsWith('?')) return undefined;
    cells[name] = cell;
  }
  return cells;
}

/** A cell of a row; a row of the installation may have a data sheet of its own behind it. */
export function cellOf(installation: Installation, row: Located, column: string): Located | undefined {
  if (row.document === installation.document) return installation.locateFrom(row.node, stepsOf(column));
  const { tree } = row.document;
  let at = row.node;
  for (const each of stepsOf(column)) at = typeof each === 'number' ? tree.item(at, each) : tree.child(at, each);
  return at < 0 || tree.isAbsent(at) ? undefined : { document: row.document, node: at };
}

function readCell(installation: Installation, located: Located, column: string): unknown {
  return column.startsWith('text') ? installation.text(located) : finite(installation.number(located));
}
