import { isFoundUnder, MOST_COMPARED, type Neighbours, neighboursIn, type Surroundings } from './fleet.ts';
import type { WellFacts } from './well-facts.ts';

/**
 * A fleet in numbers alone, for runs over more installations than can be kept: who is found under which key, without the
 * keys and without the facts. Plain data on shared memory, so that it costs nothing to hand it to a worker.
 */
export interface FleetLedger {
  /** Paths of the members, sorted. */
  readonly paths: readonly string[];
  /** Where the keys of each member begin in `keys`; one more at the end. */
  readonly starts: Int32Array;
  /** Numbers of the keys of all members, in the order of `keysOf`. */
  readonly keys: Int32Array;
  /** How many are found under each key. */
  readonly counts: Int32Array;
  /** Where the first few members under each key begin in `members`; one more at the end. */
  readonly bucketStarts: Int32Array;
  readonly members: Int32Array;
}

/** Takes in installations one by one, in the order of their paths. */
export class LedgerWriter {
  readonly #paths: string[] = [];
  readonly #starts: number[] = [0];
  readonly #keys: number[] = [];
  readonly #numbers = new Map<string, number>();
  readonly #counts: number[] = [];
  /** The first few under each key; a number alone where there is one, as there is under most. */
  readonly #buckets: (number | number[] | undefined)[] = [];

  add(path: string, keys: readonly string[]): void {
    const member = this.#paths.push(path) - 1;
    const numbers = keys.map((key) => this.#numberOf(key));
    for (const number of numbers) this.#keys.push(number);
    this.#starts.push(this.#keys.length);
    for (const number of new Set(numbers.filter((_, place) => isFoundUnder(numbers, place))))
      this.#enter(number, member);
  }

  finish(): FleetLedger {
    const bucketStarts = [0];
    const members: number[] = [];
    for (const bucket of this.#buckets) {
      if (typeof bucket === 'number') members.push(bucket);
      else if (bucket !== undefined) members.push(...bucket);
      bucketStarts.push(members.length);
    }
    return {
      paths: this.#paths,
      starts: shared(this.#starts),
      keys: shared(this.#keys),
      counts: shared(this.#counts),
      bucketStarts: shared(bucketStarts),
      members: shared(members),
    };
  }

  #numberOf(key: string): number {
    const known = this.#numbers.get(key);
    if (known !== undefined) return known;
    const number = this.#counts.push(0) - 1;
    this.#buckets.push(undefined);
    this.#numbers.set(key, number);
    return number;
  }

  #enter(number: number, member: number): void {
    this.#counts[number] = (this.#counts[number] ?? 0) + 1;
    const bucket = this.#buckets[number];
    if (bucket === undefined) this.#buckets[number] = member;
    else if (typeof bucket === 'number') this.#buckets[number] = [bucket, member];
    else if (bucket.length < MOST_COMPARED) bucket.push(member);
  }
}

function shared(numbers: readonly number[]): Int32Array {
  const array = new Int32Array(new SharedArrayBuffer(4 * numbers.length));
  array.set(numbers);
  return array;
}

/** Reads a ledger. What is told of another installation in full is fetched when it is needed. */
export class LedgerReader {
  readonly #ledger: FleetLedger;
  readonly #places: ReadonlyMap<string, number>;
  readonly #fetch: (path: string) => WellFacts | undefined;

  constructor(ledger: FleetLedger, fetch: (path: string) => WellFacts | undefined) {
    this.#ledger = ledger;
    this.#places = new Map(ledger.paths.map((path, place) => [path, place]));
    this.#fetch = fetch;
  }

  /** What one of the members shares with the others. `least` is how many equal entries make a copy. */
  neighboursOf(own: WellFacts, least: number): Neighbours | undefined {
    const member = this.#places.get(own.path);
    return member === undefined ? undefined : neighboursIn(own, this.#around(member), least);
  }

  #around(member: number): Surroundings {
    const keys = this.#keysAt(member);
    const places = new Map(Array.from(keys, (key, place) => [key, place]));
    return {
      size: this.#ledger.paths.length,
      under: (key) => this.#bucket(keys[key]),
      shared: (other) => new Set(this.#foundUnder(other).flatMap((key) => places.get(key) ?? [])),
      facts: this.#fetch,
    };
  }

  #keysAt(member: number): Int32Array {
    const { keys, starts } = this.#ledger;
    return keys.subarray(starts[member], starts[member + 1]);
  }

  #foundUnder(path: string): readonly number[] {
    const member = this.#places.get(path);
    const keys = member === undefined ? [] : [...this.#keysAt(member)];
    return keys.filter((_, place) => isFoundUnder(keys, place));
  }

  #bucket(key: number | undefined): { readonly count: number; readonly first: readonly string[] } {
    if (key === undefined) return { count: 0, first: [] };
    const { bucketStarts, members, counts, paths } = this.#ledger;
    const first = members.subarray(bucketStarts[key], bucketStarts[key + 1]);
    return { count: counts[key] ?? 0, first: Array.from(first, (member) => paths[member] ?? '') };
  }
}
