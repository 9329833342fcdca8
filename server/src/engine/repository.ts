import { type CheckedFile, checkDocument } from './check-document.ts';
import { NO_POLICY, POLICY_FILE, type Policy, readPolicy } from './findings/policy.ts';
import type { Document } from './format/document.ts';
import { readDocument } from './format/read.ts';
import { basisOf, FleetIndex, type Neighbours } from './links/fleet.ts';
import type { LedgerReader } from './links/ledger.ts';
import { foldersUp, isInside } from './links/paths.ts';
import { type Reference, referencesOf } from './links/references.ts';
import { type WellFacts, wellFactsOf } from './links/well-facts.ts';
import type { Visited } from './readings/judge.ts';
import { LimitTable, takesLimit } from './values/limits.ts';

/** News of one file. The engine never reads one: the host tells. */
export type Change =
  | { readonly path: string; readonly text: string; readonly root?: string }
  /** There is no such file. */
  | { readonly path: string; readonly absent: true }
  /** There is one, but it cannot be read, or is no text; `check` names the finding that says so. */
  | { readonly path: string; readonly unreadable: string }
  /** Symbolic links lead it out of the root of those that refer to it, so it is not read. */
  | { readonly path: string; readonly outside: true };

interface KnownDocument {
  readonly state: 'read';
  readonly document: Document;
  readonly root: string;
  readonly references: readonly Reference[];
  /** Of an installation: what others compare themselves with. */
  readonly facts: WellFacts | undefined;
}

/** What is known of one path. */
export type Known =
  | KnownDocument
  | { readonly state: 'absent' }
  | { readonly state: 'outside' }
  | { readonly state: 'unreadable'; readonly reason: string };

export interface RepositoryOptions {
  /** Root for documents whose change names none: references may not leave it. */
  readonly root: string;
  /** Day on which checks are made, `2026-03-14`. */
  readonly today: string;
  /** A policy that holds for all documents instead of the nearest one. */
  readonly policy?: string;
}

/** What a set of documents is made of. */
interface Parts {
  readonly options: RepositoryOptions;
  readonly known: ReadonlyMap<string, Known>;
  readonly policies: ReadonlyMap<string, Policy>;
  readonly shelved: ReadonlyMap<string, WellFacts>;
  readonly checked: ReadonlyMap<string, Cached>;
  readonly fleet: Fleet;
}

interface Cached {
  readonly basis: readonly unknown[];
  readonly file: CheckedFile;
}

/** The index over the facts of all installations, and the paths whose facts it has not taken in yet. */
interface Fleet {
  readonly index: FleetIndex;
  readonly stale: ReadonlySet<string>;
}

/**
 * An immutable set of documents. `update` gives a new set; what its changes do not touch is carried over, parsed texts
 * and finished checks alike.
 */
export class Repository {
  readonly options: RepositoryOptions;
  readonly #known: ReadonlyMap<string, Known>;
  readonly #policies: ReadonlyMap<string, Policy>;
  /** Facts of installations that were let go of, for those that are checked beside them. */
  readonly #shelved: ReadonlyMap<string, WellFacts>;
  /** Results by path, with the documents that they rest on; filled on demand, carried to the next set. */
  readonly #checked: Map<string, Cached>;
  /** Brought up to date when it is asked for: it costs nothing while documents are only read. */
  #fleet: Fleet;

  private constructor(parts: Parts) {
    this.options = parts.options;
    this.#known = parts.known;
    this.#policies = parts.policies;
    this.#shelved = parts.shelved;
    this.#checked = new Map(parts.checked);
    this.#fleet = parts.fleet;
  }

  static empty(options: RepositoryOptions): Repository {
    const fleet = { index: FleetIndex.EMPTY, stale: new Set<string>() };
    const [known, policies, shelved] = [new Map(), new Map(), new Map()];
    return new Repository({ options, known, policies, shelved, checked: new Map(), fleet });
  }

  update(changes: readonly Change[]): Repository {
    const known = new Map(this.#known);
    const policies = new Map(this.#policies);
    for (const change of changes) {
      const before = this.#known.get(change.path);
      const now = knownAfter(change, this.options.root, before);
      // No news: what rests on it, above all on a policy, stays as it is.
      if (now === before) continue;
      known.set(change.path, now);
      const document = now.state === 'read' ? now.document : undefined;
      if (document?.kind === 'policy') policies.set(change.path, readPolicy(document, takesLimit));
      else policies.delete(change.path);
    }
    const paths = changes.map(({ path }) => path);
    return this.#next(paths, { known, policies, shelved: without(this.#shelved, paths) });
  }

  /** The same documents on another day. */
  on(today: string): Repository {
    return this.#next([], { options: { ...this.options, today }, checked: new Map() });
  }

  /** Forgets documents, such as those of a folder that was closed. */
  without(paths: readonly string[]): Repository {
    return this.#next(paths, {
      known: without(this.#known, paths),
      policies: without(this.#policies, paths),
      shelved: without(this.#shelved, paths),
      checked: without(this.#checked, paths),
    });
  }

  /** Lets go of documents, and remembers of installations what the others are compared with. */
  shelve(paths: readonly string[]): Repository {
    const shelved = new Map(this.#shelved);
    for (const path of paths) {
      const facts = this.factsOf(path);
      if (facts !== undefined) shelved.set(path, facts);
    }
    return this.#next([], {
      known: without(this.#known, paths),
      policies: without(this.#policies, paths),
      shelved,
      checked: without(this.#checked, paths),
    });
  }

  /** The set after a change, in which the facts of these paths may be others. */
  #next(paths: readonly string[], changed: Partial<Parts>): Repository {
    const { index, stale } = this.#fleet;
    const fleet = { index, stale: new Set([...stale, ...paths]) };
    const [options, known, policies] = [this.options, this.#known, this.#policies];
    return new Repository({
      options,
      known,
      policies,
      shelved: this.#shelved,
      checked: this.#checked,
      fleet,
      ...changed,
    });
  }

  /** Of how many paths something is known. */
  get size(): number {
    return this.#known.size;
  }

  known(path: string): Known | undefined {
    return this.#known.get(path);
  }

  document(path: string): Document | undefined {
    const known = this.#known.get(path);
    return known?.state === 'read' ? known.document : undefined;
  }

  /** Paths of all documents that were read, sorted. */
  paths(): readonly string[] {
    return [...this.#known].flatMap(([path, { state }]) => (state === 'read' ? [path] : [])).sort();
  }

  /** Paths that documents refer to, or could be governed by, and of which nothing is known yet. */
  wanted(): readonly string[] {
    const wanted = new Set<string>();
    for (const [path, known] of this.#known) {
      if (known.state !== 'read' || !known.document.ours) continue;
      const asked = [...known.references.filter((each) => isInside(each.path, known.root)).map((each) => each.path)];
      for (const each of [...asked, ...this.policyPaths(path)]) if (!this.#known.has(each)) wanted.add(each);
    }
    return [...wanted].sort();
  }

  /** Where the policy of a document may stand, nearest first. */
  policyPaths(path: string): readonly string[] {
    if (this.options.policy !== undefined) return [this.options.policy];
    return foldersUp(path, this.rootOf(path)).map((folder) =>
      folder === '' ? POLICY_FILE : `${folder}/${POLICY_FILE}`,
    );
  }

  rootOf(path: string): string {
    const known = this.#known.get(path);
    return known?.state === 'read' ? known.root : this.options.root;
  }

  policyOf(path: string): Policy {
    for (const at of this.policyPaths(path)) {
      const policy = this.#policies.get(at);
      if (policy !== undefined) return policy;
    }
    return NO_POLICY;
  }

  /** Documents that refer to a path, sorted. */
  usersOf(path: string): readonly string[] {
    return [...this.#known]
      .filter(([, known]) => known.state === 'read' && known.references.some((each) => each.path === path))
      .map(([user]) => user)
      .sort();
  }

  /**
   * Checks one document against everything known; the result is kept until one of its documents changes.
   * @param fleet the installations that it is compared with, where they are more than this set holds
   */
  check(path: string, fleet?: LedgerReader): CheckedFile | undefined {
    const known = this.#known.get(path);
    if (known?.state !== 'read') return undefined;
    const policy = this.policyOf(path);
    const neighbours = fleet === undefined ? this.neighboursOf(path, policy) : neighboursIn(fleet, known.facts, policy);
    const sheets = known.references.map((each) => this.#known.get(each.path));
    const visited = this.#visitedBy(known);
    const basis = [known, policy, ...sheets, visited?.planned, ...basisOf(neighbours)];
    const cached = this.#checked.get(path);
    if (cached !== undefined && sameBasis(cached.basis, basis)) return cached.file;
    const file = checkDocument({
      document: known.document,
      references: known.references,
      root: known.root,
      policy,
      facts: known.facts,
      neighbours,
      visited,
      today: this.options.today,
      lookUp: (at) => this.#known.get(at),
      before: cached?.file.policy === policy ? cached.file.worked : undefined,
    });
    this.#checked.set(path, { basis, file });
    return file;
  }

  /** The installation to which readings refer, checked as it is, and ready to be checked as it was left. */
  #visitedBy({ document, references }: KnownDocument): Visited | undefined {
    const reference = references.find(({ kind }) => kind === 'installation');
    const known = reference === undefined ? undefined : this.#known.get(reference.path);
    if (document.kind !== 'readings' || known?.state !== 'read' || known.document.kind !== 'installation')
      return undefined;
    const planned = this.check(known.document.path);
    if (planned === undefined) return undefined;
    return { planned, recheck: (left) => this.#checkInPlaceOf(known, left) };
  }

  /** Checks a text as if it stood in the place of a document, by itself: other wells are not compared with it. */
  #checkInPlaceOf({ root }: KnownDocument, document: Document): CheckedFile {
    return checkDocument({
      document,
      references: referencesOf(document),
      root,
      policy: this.policyOf(document.path),
      facts: undefined,
      neighbours: undefined,
      today: this.options.today,
      lookUp: (at) => this.#known.get(at),
    });
  }

  /** What an installation shares with the others, also when it was let go of; `policy` is the one it is checked by. */
  neighboursOf(path: string, policy: Policy): Neighbours | undefined {
    return this.#upToDate().neighboursOf(path, leastEqual(policy));
  }

  #upToDate(): FleetIndex {
    const { index, stale } = this.#fleet;
    if (stale.size === 0) return index;
    const changes = new Map([...stale].map((path) => [path, this.factsOf(path)]));
    this.#fleet = { index: index.with(changes), stale: new Set() };
    return this.#fleet.index;
  }

  /** What others compare a document with, also when it was let go of. */
  factsOf(path: string): WellFacts | undefined {
    const known = this.#known.get(path);
    return known?.state === 'read' ? known.facts : this.#shelved.get(path);
  }
}

function neighboursIn(fleet: LedgerReader, own: WellFacts | undefined, policy: Policy): Neighbours | undefined {
  return own === undefined ? undefined : fleet.neighboursOf(own, leastEqual(policy));
}

/** How many equal entries make a copy. */
function leastEqual({ limits }: Policy): number {
  return new LimitTable(limits).number('identity.half-edited-copy');
}

function without<T>(map: ReadonlyMap<string, T>, paths: readonly string[]): ReadonlyMap<string, T> {
  if (!paths.some((path) => map.has(path))) return map;
  const rest = new Map(map);
  for (const path of paths) rest.delete(path);
  return rest;
}

function knownAfter(change: Change, root: string, before: Known | undefined): Known {
  if ('absent' in change) return { state: 'absent' };
  if ('outside' in change) return { state: 'outside' };
  if ('unreadable' in change) return { state: 'unreadable', reason: change.unreadable };
  const at = change.root ?? root;
  if (before?.state === 'read' && before.document.source.text === change.text && before.root === at) return before;
  const document = readDocument(change.path, change.text);
  return { state: 'read', document, root: at, references: referencesOf(document), facts: wellFactsOf(document) };
}

function sameBasis(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, index) => each === b[index]);
}
