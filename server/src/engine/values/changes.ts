import type { Condition, Inputs } from './declare.ts';
import { nodeOf, type Resolving } from './readers.ts';

/** What a computation may read, by place among the lookups and values: where none of it has changed, nor has the result. */
export interface Reads {
  readonly entries: readonly number[];
  readonly caseKeys: readonly number[];
  readonly rows: readonly number[];
  /** Places of values in the order of computation. */
  readonly values: readonly number[];
}

/** What a computation reads under these conditions and with these inputs. */
export function readsOf(when: readonly Condition[], inputs: Inputs, { byId, lookups }: Resolving): Reads {
  const [entries, caseKeys, rows, values] = [
    new Set<number>(),
    new Set<number>(),
    new Set<number>(),
    new Set<number>(),
  ];
  for (const { source } of Object.values(inputs)) {
    if ('path' in source && source.path !== '') entries.add(lookups.entry(source.path));
    if ('inCase' in source && source.inCase !== undefined) caseKeys.add(lookups.caseKey(source.inCase));
    if ('key' in source) caseKeys.add(lookups.caseKey(source.key));
    if ('columns' in source) rows.add(lookups.list(source));
    if ('id' in source) values.add(nodeOf(source.id, byId).index);
  }
  for (const condition of when) {
    if ('path' in condition) entries.add(lookups.entry(condition.path));
    else caseKeys.add(lookups.caseKey(condition.caseKey));
  }
  return { entries: [...entries], caseKeys: [...caseKeys], rows: [...rows], values: [...values] };
}

/** What reads otherwise than in the evaluation that another one was made from: a byte for each place. */
export class Changes {
  readonly #entries: Uint8Array;
  readonly #caseKeys: Uint8Array;
  readonly #rows: Uint8Array;
  readonly #values = new Set<number>();

  constructor(entries: Uint8Array, caseKeys: Uint8Array, rows: Uint8Array) {
    this.#entries = entries;
    this.#caseKeys = caseKeys;
    this.#rows = rows;
  }

  /** A value came out otherwise, so that what rests on it is to be worked out again. */
  noteValue(at: number): void {
    this.#values.add(at);
  }

  touch(reads: Reads): boolean {
    return (
      hasAny(this.#entries, reads.entries) ||
      reads.values.some((at) => this.#values.has(at)) ||
      hasAny(this.#caseKeys, reads.caseKeys) ||
      hasAny(this.#rows, reads.rows)
    );
  }
}

function hasAny(marks: Uint8Array, places: readonly number[]): boolean {
  for (let index = 0; index < places.length; index++) if (marks[places[index] as number] === 1) return true;
  return false;
}
