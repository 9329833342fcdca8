import { stepsOf } from '../syntax/tree.ts';
import type { RowsSource } from './declare.ts';
import { type ColumnLookup, columnsOf } from './rows.ts';

export type Steps = readonly (string | number)[];

/** A list that computations read, and where it stands among the entries. */
export interface RowsLookup {
  readonly columns: readonly ColumnLookup[];
  readonly entry: number;
}

/**
 * What computations look up in an installation, each thing once: its place in these lists stands for its path. They
 * grow as declarations are made ready to be read, so that no path is taken apart or hashed twice.
 */
export class Lookups {
  /** Entries of the whole file. */
  readonly entries: Steps[] = [];
  /** Entries that a case may have. */
  readonly caseKeys: Steps[] = [];
  readonly rows: RowsLookup[] = [];
  readonly #entryAt = new Map<string, number>();
  readonly #caseKeyAt = new Map<string, number>();
  readonly #rowsAt = new Map<RowsSource, number>();

  entry(path: string): number {
    return placeOf(path, this.#entryAt, () => this.entries.push(stepsOf(path)));
  }

  caseKey(key: string): number {
    return placeOf(key, this.#caseKeyAt, () => this.caseKeys.push(stepsOf(key)));
  }

  list(source: RowsSource): number {
    return placeOf(source, this.#rowsAt, () =>
      this.rows.push({ columns: columnsOf(source), entry: this.entry(source.path) }),
    );
  }

  /** The place of an entry that some computation reads. */
  knownEntry(path: string): number | undefined {
    return this.#entryAt.get(path);
  }

  knownCaseKey(key: string): number | undefined {
    return this.#caseKeyAt.get(key);
  }
}

/** @param add adds what is not known yet at the end of its list, and gives the new length of that */
function placeOf<T>(what: T, known: Map<T, number>, add: () => number): number {
  const at = known.get(what) ?? add() - 1;
  known.set(what, at);
  return at;
}
