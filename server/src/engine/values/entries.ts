import type { Installation, Located } from '../links/installation.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';
import { Changes } from './changes.ts';
import type { Lookups, RowsLookup, Steps } from './lookups.ts';
import { type Rows, readRows, sameRows } from './rows.ts';

/** Entries below one node of an installation by their place among the lookups, each looked for when it is first asked for. */
export class EntryList {
  readonly #installation: Installation;
  readonly #from: NodeIndex;
  readonly #paths: readonly Steps[];
  /** Null for one that was looked for and is not there. */
  readonly #located: (Located | null | undefined)[] = [];
  readonly #numbers: (number | undefined)[] = [];

  constructor(installation: Installation, from: NodeIndex, paths: readonly Steps[]) {
    this.#installation = installation;
    this.#from = from;
    this.#paths = paths;
  }

  located(at: number): Located | undefined {
    const known = this.#located[at];
    if (known !== undefined) return known ?? undefined;
    const located = this.#installation.locateFrom(this.#from, this.#paths[at] ?? []);
    this.#located[at] = located ?? null;
    return located;
  }

  has(at: number): boolean {
    return this.located(at) !== undefined;
  }

  /** In the internal unit of its kind, pressures absolute; NaN where there is none. */
  number(at: number): number {
    const known = this.#numbers[at];
    if (known !== undefined) return known;
    const located = this.located(at);
    const number = located === undefined ? Number.NaN : finite(this.#installation.number(located));
    this.#numbers[at] = number;
    return number;
  }

  text(at: number): string | undefined {
    const located = this.located(at);
    return located === undefined ? undefined : this.#installation.text(located);
  }

  /** Of the same text the entries stand where they stood, whatever is computed with. */
  takePlaces(before: EntryList): void {
    before.#located.forEach((located, at) => {
      this.#located[at] = located;
    });
  }

  /**
   * Marks the entries that read otherwise than before. What was not read before bears on nothing that was worked out
   * then.
   */
  markChanges(before: EntryList, marks: Uint8Array): void {
    for (let at = 0; at < before.#located.length; at++) if (!this.#readsAsIn(before, at)) marks[at] = 1;
  }

  #readsAsIn(before: EntryList, at: number): boolean {
    const then = before.#located[at];
    if (then === undefined) return true;
    const now = this.located(at);
    if (now === undefined || then === null) return now === undefined && then === null;
    if (now.document.tree.scalar(now.node) !== then.document.tree.scalar(then.node)) return false;
    return Object.is(this.number(at), before.number(at)) && alternateOf(now) === alternateOf(then);
  }
}

/** Everything that computations look up in one installation. */
export class Entries {
  /** Of the whole file. */
  readonly file: EntryList;
  readonly #cases: readonly EntryList[];
  /** What a case that is not there has: nothing. */
  readonly #noCase: EntryList;
  readonly #installation: Installation;
  readonly #lookups: Lookups;
  /** Null for a list that is absent, or lacks a cell that must be there. */
  readonly #rows: (Rows | null | undefined)[] = [];

  constructor(installation: Installation, lookups: Lookups) {
    this.#installation = installation;
    this.#lookups = lookups;
    this.file = new EntryList(installation, installation.document.tree.root, lookups.entries);
    this.#cases = installation.caseNodes.map((node) => new EntryList(installation, node, lookups.caseKeys));
    this.#noCase = new EntryList(installation, NONE, lookups.caseKeys);
  }

  inCase(caseIndex: number): EntryList {
    return this.#cases[caseIndex] ?? this.#noCase;
  }

  rows(at: number): Rows | undefined {
    const known = this.#rows[at];
    if (known !== undefined) return known ?? undefined;
    const { columns, entry } = this.#lookups.rows[at] as RowsLookup;
    const rows = readRows(this.#installation, this.file.located(entry), columns);
    this.#rows[at] = rows ?? null;
    return rows;
  }

  /** What reads otherwise than it did before; the installations have as many cases. */
  changesSince(before: Entries): Changes {
    const { entries, caseKeys, rows } = this.#lookups;
    if (this.#isInSameText(before)) this.#takePlaces(before);
    const [file, cases] = [new Uint8Array(entries.length), new Uint8Array(caseKeys.length)];
    this.file.markChanges(before.file, file);
    for (const [at, each] of this.#cases.entries()) each.markChanges(before.inCase(at), cases);
    return new Changes(
      file,
      cases,
      Uint8Array.from(rows, (_, at) => (this.#listsAsIn(before, at) ? 0 : 1)),
    );
  }

  #isInSameText(before: Entries): boolean {
    const [here, there] = [this.#installation, before.#installation];
    return here.document === there.document && here.sheets === there.sheets;
  }

  #takePlaces(before: Entries): void {
    this.file.takePlaces(before.file);
    for (const [at, each] of this.#cases.entries()) each.takePlaces(before.inCase(at));
  }

  #listsAsIn(before: Entries, at: number): boolean {
    const then = before.#rows[at];
    if (then === undefined) return true;
    const now = this.rows(at) ?? null;
    if (then !== null && now !== null) return sameRows(now, then);
    // Which cells lack may have changed; only where there is no list at all is there nothing to tell apart.
    const { entry } = this.#lookups.rows[at] as RowsLookup;
    return then === now && !this.file.has(entry) && !before.file.has(entry);
  }
}

function finite(number: number): number {
  return Number.isFinite(number) ? number : Number.NaN;
}

function alternateOf({ document, node }: Located): string | undefined {
  return document.quantities[node]?.alternate;
}
