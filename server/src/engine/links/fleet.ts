import type { Fact, WellFacts } from './well-facts.ts';

/** Others that share something with an installation: the first few by path, and how many there are. */
export interface Sharing {
  readonly count: number;
  readonly first: readonly WellFacts[];
}

/** Another installation of which most is equal. */
export interface Copy {
  readonly other: WellFacts;
  /** Keys of what is equal. */
  readonly equal: readonly string[];
}

/** What the checks across files see of the others. */
export interface Neighbours {
  /** Whether there is no other installation to compare with. */
  readonly isAlone: boolean;
  readonly sameWell: Sharing;
  /** Wells of another name with the same serial number, by its fact; only those that are shared. */
  readonly sameSerial: readonly { readonly serial: Fact; readonly sharing: Sharing }[];
  readonly sameRestart: Sharing;
  readonly copies: readonly Copy[];
}

const MOST_NAMED = 3;
/** A bound on what is compared for one well, or a thousand copies would be a million comparisons. */
const MOST_COMPARED = 16;
const NOBODY: Sharing = { count: 0, first: [] };

/**
 * Which installations share a name, a serial number, a depth: by key, sorted by path, so that what is found does not
 * depend on the order in which files came. Immutable; `with` gives another one and touches only what changed.
 */
export class FleetIndex {
  static readonly EMPTY = new FleetIndex(new Map(), new Map());
  readonly #members: ReadonlyMap<string, WellFacts>;
  readonly #buckets: ReadonlyMap<string, readonly string[]>;

  private constructor(members: ReadonlyMap<string, WellFacts>, buckets: ReadonlyMap<string, readonly string[]>) {
    this.#members = members;
    this.#buckets = buckets;
  }

  /** With the facts of some documents changed; undefined takes one out. Linear in what changed. */
  with(changes: ReadonlyMap<string, WellFacts | undefined>): FleetIndex {
    const members = new Map(this.#members);
    const moves = new Map<string, Move>();
    for (const [path, facts] of changes) {
      const before = new Set(indexed(this.#members.get(path)));
      const after = new Set(indexed(facts));
      for (const key of before) if (!after.has(key)) moveOf(moves, key).gone.add(path);
      for (const key of after) if (!before.has(key)) moveOf(moves, key).come.push(path);
      if (facts === undefined) members.delete(path);
      else members.set(path, facts);
    }
    if (moves.size === 0) return new FleetIndex(members, this.#buckets);
    const buckets = new Map(this.#buckets);
    for (const [key, { gone, come }] of moves) {
      const bucket = [...(buckets.get(key) ?? []).filter((path) => !gone.has(path)), ...come].sort();
      if (bucket.length === 0) buckets.delete(key);
      else buckets.set(key, bucket);
    }
    return new FleetIndex(members, buckets);
  }

  /** What an installation shares with others. `least` is how many equal entries make a copy. */
  neighboursOf(path: string, least: number): Neighbours | undefined {
    const own = this.#members.get(path);
    if (own === undefined) return undefined;
    return {
      isAlone: this.#members.size < 2,
      sameWell: this.#sameWell(own),
      sameSerial: this.#sameSerial(own),
      sameRestart: own.restartDelay === undefined ? NOBODY : this.#sharing(own, restartKey(own, own.restartDelay)),
      copies: this.#copies(own, least),
    };
  }

  /** A field that is not entered may be any. */
  #sameWell(own: WellFacts): Sharing {
    if (own.field === '') return this.#sharing(own, nameKey(own));
    const [same, open] = [this.#sharing(own, wellKey(own)), this.#sharing(own, wellKey({ well: own.well, field: '' }))];
    return { count: same.count + open.count, first: [...same.first, ...open.first].slice(0, MOST_NAMED) };
  }

  #sameSerial(own: WellFacts): Neighbours['sameSerial'] {
    return own.serials.flatMap((serial) => {
      const sharing = this.#sharing(own, serialKey(serial), (other) => !isSameWell(own, other));
      return sharing.first.length === 0 ? [] : [{ serial, sharing }];
    });
  }

  /** The others in a bucket, and the first few of them by path. Of a crowd only some are looked at. */
  #sharing(own: WellFacts, key: string, isWanted: (other: WellFacts) => boolean = () => true): Sharing {
    const bucket = this.#buckets.get(key) ?? [];
    const looked = bucket.slice(0, MOST_COMPARED);
    const wanted = looked.flatMap((path) => {
      const other = this.#members.get(path);
      return other === undefined || path === own.path || !isWanted(other) ? [] : [other];
    });
    const rest = bucket.length - looked.length;
    return { count: wanted.length + rest, first: wanted.slice(0, MOST_NAMED) };
  }

  /** Wells of another name of which most is equal, the likest first. */
  #copies(own: WellFacts, least: number): readonly Copy[] {
    const copies = this.#candidates(own).flatMap((other): readonly Copy[] => {
      const equal = [...own.comparable].flatMap(([key, value]) => (other.comparable.get(key) === value ? [key] : []));
      const isCopy = equal.length >= least && 2 * equal.length > own.comparable.size;
      return isCopy ? [{ other, equal }] : [];
    });
    copies.sort((a, b) => b.equal.length - a.equal.length || (a.other.path < b.other.path ? -1 : 1));
    return copies.slice(0, MOST_NAMED);
  }

  /** Wells that share an entry; what the fewest share is looked at first, for it tells most. */
  #candidates(own: WellFacts): readonly WellFacts[] {
    const buckets = [...own.comparable].map((entry) => this.#buckets.get(entryKey(entry)) ?? []);
    buckets.sort((a, b) => a.length - b.length);
    const candidates = new Map<string, WellFacts>();
    for (const path of buckets.flatMap((bucket) => bucket.slice(0, MOST_COMPARED))) {
      const other = this.#members.get(path);
      if (candidates.size >= MOST_COMPARED) break;
      if (other !== undefined && path !== own.path && other.well.value !== own.well.value) candidates.set(path, other);
    }
    return [...candidates.values()];
  }
}

interface Move {
  readonly gone: Set<string>;
  readonly come: string[];
}

function moveOf(moves: Map<string, Move>, key: string): Move {
  const move = moves.get(key) ?? { gone: new Set<string>(), come: [] };
  moves.set(key, move);
  return move;
}

/** Keys under which an installation is found. */
function indexed(facts: WellFacts | undefined): readonly string[] {
  if (facts === undefined) return [];
  const { restartDelay } = facts;
  return [
    nameKey(facts),
    wellKey(facts),
    ...facts.serials.map(serialKey),
    ...[...facts.comparable].map(entryKey),
    ...(restartDelay === undefined ? [] : [restartKey(facts, restartDelay)]),
  ];
}

function nameKey({ well }: WellFacts): string {
  return `name ${well.value}`;
}

function wellKey({ field, well }: Pick<WellFacts, 'field' | 'well'>): string {
  return `well ${field}/${well.value}`;
}

function serialKey({ value }: Fact): string {
  return `serial ${value}`;
}

function entryKey([key, value]: readonly [string, string]): string {
  return `${key} ${value}`;
}

function restartKey({ field, pad }: WellFacts, { value }: Fact): string {
  return `restart ${field}/${pad} ${value}`;
}

function isSameWell(a: WellFacts, b: WellFacts): boolean {
  return a.well.value === b.well.value && (a.field === b.field || a.field === '' || b.field === '');
}

/** What a result that was compared with neighbours rests on, flat: equal as long as they are the same. */
export function basisOf(neighbours: Neighbours | undefined): readonly unknown[] {
  if (neighbours === undefined) return [];
  const { isAlone, sameWell, sameSerial, sameRestart, copies } = neighbours;
  const sharings = [sameWell, sameRestart, ...sameSerial.map(({ sharing }) => sharing)];
  return [isAlone, ...sharings.flatMap(({ count, first }) => [count, ...first]), ...copies.map(({ other }) => other)];
}
