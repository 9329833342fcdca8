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

/** The installations that are found under one key. */
export interface Bucket {
  readonly count: number;
  /** Paths of the first few, sorted: of a crowd only some are looked at. */
  readonly first: readonly string[];
}

/** A set of installations as one of them sees it. Its own keys are meant by their place in `keysOf`. */
export interface Surroundings {
  /** How many installations there are, itself among them. */
  readonly size: number;
  under(key: number): Bucket;
  /** The own keys under which another is found too. */
  shared(path: string): ReadonlySet<number>;
  facts(path: string): WellFacts | undefined;
}

const MOST_NAMED = 3;
/** A bound on what is compared for one well, or a thousand copies would be a million comparisons. */
export const MOST_COMPARED = 16;
const NOBODY: Sharing = { count: 0, first: [] };

/** What an installation shares with others. `least` is how many equal entries make a copy. */
export function neighboursIn(own: WellFacts, others: Surroundings, least: number): Neighbours {
  return new Comparison(own, others).neighbours(least);
}

/** Places of the keys in `keysOf`; the serial numbers follow, then what is compared, then the restart. */
const [NAME, WELL, OPEN, SERIALS] = [0, 1, 2, 3];

/** One installation beside the others. */
class Comparison {
  readonly #own: WellFacts;
  readonly #others: Surroundings;
  readonly #shared = new Map<string, ReadonlySet<number>>();
  readonly #comparable: number;
  readonly #restart: number;

  constructor(own: WellFacts, others: Surroundings) {
    this.#own = own;
    this.#others = others;
    this.#comparable = SERIALS + own.serials.length;
    this.#restart = this.#comparable + own.comparable.size;
  }

  neighbours(least: number): Neighbours {
    return {
      isAlone: this.#others.size < 2,
      sameWell: this.#sameWell(),
      sameSerial: this.#sameSerial(),
      sameRestart: this.#own.restartDelay === undefined ? NOBODY : this.#sharing(this.#restart),
      copies: this.#copies(least),
    };
  }

  /** A field that is not entered may be any. */
  #sameWell(): Sharing {
    if (this.#own.field === '') return this.#sharing(NAME);
    const [same, open] = [this.#sharing(WELL), this.#sharing(OPEN)];
    return { count: same.count + open.count, first: [...same.first, ...open.first].slice(0, MOST_NAMED) };
  }

  #sameSerial(): Neighbours['sameSerial'] {
    return this.#own.serials.flatMap((serial, at) => {
      const sharing = this.#sharing(SERIALS + at, (path) => !this.#isSameWell(path));
      return sharing.first.length === 0 ? [] : [{ serial, sharing }];
    });
  }

  /** The same few wells are asked about for each serial number. */
  #sharedWith(path: string): ReadonlySet<number> {
    const known = this.#shared.get(path) ?? this.#others.shared(path);
    this.#shared.set(path, known);
    return known;
  }

  #isSameWell(path: string): boolean {
    const shared = this.#sharedWith(path);
    return shared.has(NAME) && (this.#own.field === '' || shared.has(WELL) || shared.has(OPEN));
  }

  /** The others under a key, and the first few of them by path. */
  #sharing(key: number, isWanted: (path: string) => boolean = () => true): Sharing {
    const { count, first } = this.#others.under(key);
    const wanted = first.filter((path) => path !== this.#own.path && isWanted(path));
    const named = wanted.slice(0, MOST_NAMED).flatMap((path) => this.#others.facts(path) ?? []);
    return { count: wanted.length + count - first.length, first: named };
  }

  /** Wells of another name of which most is equal, the likest first. */
  #copies(least: number): readonly Copy[] {
    const keys = [...this.#own.comparable.keys()];
    const copies = this.#candidates().flatMap(({ path, shared }) => {
      const equal = keys.filter((_, at) => shared.has(this.#comparable + at));
      return equal.length >= least && 2 * equal.length > keys.length ? [{ path, equal }] : [];
    });
    copies.sort((a, b) => b.equal.length - a.equal.length || (a.path < b.path ? -1 : 1));
    return copies.slice(0, MOST_NAMED).flatMap(({ path, equal }) => {
      const other = this.#others.facts(path);
      return other === undefined ? [] : [{ other, equal }];
    });
  }

  /** Wells that share an entry; what the fewest share is looked at first, for it tells most. */
  #candidates(): readonly { readonly path: string; readonly shared: ReadonlySet<number> }[] {
    const buckets = Array.from({ length: this.#own.comparable.size }, (_, at) =>
      this.#others.under(this.#comparable + at),
    );
    buckets.sort((a, b) => a.count - b.count);
    const seen = new Set([this.#own.path]);
    const candidates: { path: string; shared: ReadonlySet<number> }[] = [];
    for (const path of buckets.flatMap(({ first }) => first)) {
      if (candidates.length >= MOST_COMPARED) break;
      if (seen.has(path)) continue;
      seen.add(path);
      const shared = this.#sharedWith(path);
      if (!shared.has(NAME)) candidates.push({ path, shared });
    }
    return candidates;
  }
}

/**
 * Which installations share a name, a serial number, a depth: by key, sorted by path, so that what is found does not
 * depend on the order in which files came. Immutable; `with` gives another one and touches only what changed.
 */
export class FleetIndex {
  static readonly EMPTY = new FleetIndex(new Map(), new Map());
  readonly #members: ReadonlyMap<string, WellFacts>;
  readonly #buckets: ReadonlyMap<string, readonly string[]>;
  /** What was asked for already: while only data sheets change, all wells are asked for again and none has moved. */
  readonly #neighbours = new Map<string, Neighbours>();

  private constructor(members: ReadonlyMap<string, WellFacts>, buckets: ReadonlyMap<string, readonly string[]>) {
    this.#members = members;
    this.#buckets = buckets;
  }

  /** With the facts of some documents changed; undefined takes one out. Linear in what changed. */
  with(changes: ReadonlyMap<string, WellFacts | undefined>): FleetIndex {
    if ([...changes].every(([path, facts]) => this.#members.get(path) === facts)) return this;
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

  /** What one of the members shares with the others. `least` is how many equal entries make a copy. */
  neighboursOf(path: string, least: number): Neighbours | undefined {
    const own = this.#members.get(path);
    if (own === undefined) return undefined;
    const asked = `${least} ${path}`;
    const neighbours = this.#neighbours.get(asked) ?? neighboursIn(own, this.#around(own), least);
    this.#neighbours.set(asked, neighbours);
    return neighbours;
  }

  #around(own: WellFacts): Surroundings {
    const keys = keysOf(own);
    const places = new Map(keys.map((key, place) => [key, place]));
    return {
      size: this.#members.size,
      under: (key) => {
        const bucket = this.#buckets.get(keys[key] ?? '') ?? [];
        return { count: bucket.length, first: bucket.slice(0, MOST_COMPARED) };
      },
      shared: (other) => new Set(indexed(this.#members.get(other)).flatMap((key) => places.get(key) ?? [])),
      facts: (other) => this.#members.get(other),
    };
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

/** Keys by which an installation looks for others, in their settled order. */
export function keysOf(facts: WellFacts): readonly string[] {
  const { well, field, serials, comparable, restartDelay } = facts;
  return [
    `name ${well.value}`,
    `well ${field}/${well.value}`,
    `well /${well.value}`,
    ...serials.map(({ value }) => `serial ${value}`),
    ...[...comparable].map(([key, value]) => `${key} ${value}`),
    ...(restartDelay === undefined ? [] : [`restart ${field}/${facts.pad} ${restartDelay.value}`]),
  ];
}

/** Whether an installation is found by the others under a key of its own: not as one without a field, if it has one. */
export function isFoundUnder(keys: readonly unknown[], place: number): boolean {
  return place !== OPEN || keys[OPEN] === keys[WELL];
}

/** Keys under which an installation is found. */
function indexed(facts: WellFacts | undefined): readonly string[] {
  if (facts === undefined) return [];
  const keys = keysOf(facts);
  return keys.filter((_, place) => isFoundUnder(keys, place));
}

/** What a result that was compared with neighbours rests on, flat: equal as long as they are the same. */
export function basisOf(neighbours: Neighbours | undefined): readonly unknown[] {
  if (neighbours === undefined) return [];
  const { isAlone, sameWell, sameSerial, sameRestart, copies } = neighbours;
  const sharings = [sameWell, sameRestart, ...sameSerial.map(({ sharing }) => sharing)];
  return [isAlone, ...sharings.flatMap(({ count, first }) => [count, ...first]), ...copies.map(({ other }) => other)];
}
