import type { CheckedFile } from '../check-document.ts';
import type { Document } from '../format/document.ts';
import { folderOf, isInside } from '../links/paths.ts';
import type { Repository } from '../repository.ts';
import { type Comparison, compareFiles } from './comparison.ts';
import { Originals } from './copies.ts';

/** One state of a set of documents. */
export interface FleetSide {
  readonly repository: Repository;
  /** What a document is called on both sides: its path from the folder that is compared, say. */
  readonly nameOf: (path: string) => string;
}

/** Two states of many documents. */
export interface FleetComparison {
  /** Edited installations, data sheets, policies, then what they touch, each by name; what is the same is left out. */
  readonly documents: readonly Comparison[];
  /** Of each changed data sheet and policy, by its path after the change (before it where it is gone): who uses it. */
  readonly users: ReadonlyMap<string, readonly SheetUser[]>;
  /** How many documents of ours are on either side, those of both counted once. */
  readonly total: number;
}

/** An installation that a changed data sheet or policy touches. */
export interface SheetUser {
  readonly path: string;
  readonly name: string;
  /** Whether anything worked out or judged differs; where not, the installation is not listed by itself. */
  readonly isAffected: boolean;
}

/**
 * Compares two states of a repository, or two folders.
 * @param wanted which documents are asked for, by name; what touches one of them, or is touched by one, is compared too
 */
export function compareFleets(
  before: FleetSide,
  after: FleetSide,
  wanted: (name: string) => boolean = () => true,
): FleetComparison {
  return new FleetRun(before, after, wanted).run();
}

/** Paths of one document on both sides. */
interface Pair {
  readonly name: string;
  readonly before: string | undefined;
  readonly after: string | undefined;
}

class FleetRun {
  readonly #before: FleetSide;
  readonly #after: FleetSide;
  readonly #wanted: (name: string) => boolean;
  readonly #pairs: ReadonlyMap<string, Pair>;
  readonly #originals: Originals;
  readonly #comparisons = new Map<string, Comparison>();

  constructor(before: FleetSide, after: FleetSide, wanted: (name: string) => boolean) {
    this.#before = before;
    this.#after = after;
    this.#wanted = wanted;
    this.#originals = new Originals(documentsOf(after));
    this.#pairs = withMoves(pairsOf(before, after), before, after);
  }

  run(): FleetComparison {
    const changed = [...this.#pairs.values()].filter((pair) => this.#isChanged(pair));
    const users = new Map<string, readonly string[]>();
    for (const pair of changed) if (!this.#isInstallation(pair)) users.set(pair.name, this.#usersOf(pair));
    const asked = new Set(changed.filter(({ name }) => this.#wanted(name)).map(({ name }) => name));
    for (const [name, own] of users) {
      // A sheet that was asked for leads to its users, and a well that was asked for to its sheets.
      if (asked.has(name)) for (const user of own) asked.add(user);
      else for (const user of own.filter(this.#wanted)) asked.add(user).add(name);
    }
    for (const name of asked) this.#compare(name);
    this.#compareNeighbours();
    const documents = [...this.#comparisons].filter(([, { change }]) => change !== 'same');
    return {
      documents: documents
        .sort(([a, one], [b, other]) => rankOf(one) - rankOf(other) || (a < b ? -1 : 1))
        .map(([, each]) => each),
      users: this.#usersByPath(users),
      total: this.#pairs.size,
    };
  }

  #isChanged({ before, after }: Pair): boolean {
    const [old, now] = [this.#documentBefore(before), this.#documentAfter(after)];
    return old?.source.text !== now?.source.text || this.#isMoved(before, after);
  }

  #isMoved(before: string | undefined, after: string | undefined): boolean {
    if (before === undefined || after === undefined) return true;
    return this.#before.nameOf(before) !== this.#after.nameOf(after);
  }

  #documentBefore(path: string | undefined): Document | undefined {
    return path === undefined ? undefined : this.#before.repository.document(path);
  }

  #documentAfter(path: string | undefined): Document | undefined {
    return path === undefined ? undefined : this.#after.repository.document(path);
  }

  #isInstallation({ before, after }: Pair): boolean {
    const document = this.#documentAfter(after) ?? this.#documentBefore(before);
    return document?.kind === 'installation' || document?.kind === 'readings';
  }

  /** Names of the installations that a data sheet or a policy stands behind, on either side. */
  #usersOf({ before, after }: Pair): readonly string[] {
    const users = [...usersIn(this.#before, before), ...usersIn(this.#after, after)];
    return [...new Set(users)].sort().filter((name) => this.#pairs.has(name));
  }

  #compare(name: string): void {
    const pair = this.#pairs.get(name);
    if (pair === undefined || this.#comparisons.has(name)) return;
    const old = pair.before === undefined ? undefined : this.#before.repository.check(pair.before);
    const now = pair.after === undefined ? undefined : this.#after.repository.check(pair.after);
    if (old === undefined && now === undefined) return;
    const comparison = compareFiles(old, now);
    this.#comparisons.set(
      name,
      this.#isMoved(pair.before, pair.after) ? this.#withOrigin(comparison, now) : comparison,
    );
  }

  /** Where a new installation comes from: copied from another, or moved. */
  #withOrigin(comparison: Comparison, now: CheckedFile | undefined): Comparison {
    const { before, after } = comparison;
    if (after === undefined || now === undefined) return comparison;
    if (before !== undefined) {
      const remark = `The file was '${this.#before.nameOf(before.path)}' before.`;
      return { ...comparison, change: 'changed', remarks: [remark, ...comparison.remarks] };
    }
    if (now.document.kind !== 'installation') return comparison;
    return { ...comparison, copyOf: this.#originals.likest(now.document) };
  }

  /** A changed installation may be what others share a name or a serial number with: their findings point at it. */
  #compareNeighbours(): void {
    const pointed = [...this.#comparisons].flatMap(([name]) => {
      const { before, after } = this.#pairs.get(name) as Pair;
      return [...relatedOf(this.#before, before), ...relatedOf(this.#after, after)];
    });
    for (const name of new Set(pointed)) this.#compare(name);
  }

  #usersByPath(users: ReadonlyMap<string, readonly string[]>): FleetComparison['users'] {
    const known = [...users].filter(([name]) => this.#comparisons.has(name));
    return new Map(
      known.map(([name, own]) => {
        const { before, after } = this.#pairs.get(name) as Pair;
        return [after ?? before ?? '', own.map((user) => this.#userOf(user))];
      }),
    );
  }

  #userOf(name: string): SheetUser {
    const { before, after } = this.#pairs.get(name) as Pair;
    const document = this.#documentAfter(after) ?? this.#documentBefore(before);
    const tree = document?.tree;
    const change = this.#comparisons.get(name)?.change;
    return {
      path: after ?? before ?? '',
      name: tree?.scalar(tree.find('site.well')).trim() ?? '',
      isAffected: change !== undefined && change !== 'same',
    };
  }
}

function documentsOf({ repository }: FleetSide): readonly Document[] {
  return repository.paths().flatMap((path) => {
    const document = repository.document(path);
    return document?.ours ? [document] : [];
  });
}

function pairsOf(before: FleetSide, after: FleetSide): ReadonlyMap<string, Pair> {
  const pairs = new Map<string, Pair>();
  for (const { path } of documentsOf(before)) {
    const name = before.nameOf(path);
    pairs.set(name, { name, before: path, after: undefined });
  }
  for (const { path } of documentsOf(after)) {
    const name = after.nameOf(path);
    pairs.set(name, { name, before: pairs.get(name)?.before, after: path });
  }
  return pairs;
}

/** A file that is gone here and there again under another name, with nearly all that it said, was moved. */
function withMoves(pairs: ReadonlyMap<string, Pair>, before: FleetSide, after: FleetSide): ReadonlyMap<string, Pair> {
  const all = [...pairs.values()];
  const gone = all.flatMap((pair) =>
    pair.after === undefined ? (before.repository.document(pair.before ?? '') ?? []) : [],
  );
  const originals = new Originals(gone);
  const moved = new Map(pairs);
  for (const { name, after: path } of all.filter((pair) => pair.before === undefined)) {
    const document = after.repository.document(path ?? '');
    const origin = document && originals.likest(document, (other) => moved.has(before.nameOf(other.path)));
    if (origin === undefined) continue;
    moved.delete(before.nameOf(origin.path));
    moved.set(name, { name, before: origin.path, after: path });
  }
  return moved;
}

function usersIn({ repository, nameOf }: FleetSide, path: string | undefined): readonly string[] {
  if (path === undefined) return [];
  const isPolicy = repository.document(path)?.kind === 'policy';
  return (isPolicy ? governedBy(repository, path) : repository.usersOf(path)).map(nameOf);
}

/** Installations below a policy's folder; a nearer policy takes its own out. */
function governedBy(repository: Repository, policy: string): readonly string[] {
  const folder = folderOf(policy);
  return repository.paths().filter((path) => {
    const isBelow = repository.options.policy === policy || isInside(path, folder);
    return (
      isBelow &&
      repository.document(path)?.kind === 'installation' &&
      repository.policyOf(path).document?.path === policy
    );
  });
}

function relatedOf({ repository, nameOf }: FleetSide, path: string | undefined): readonly string[] {
  const findings = path === undefined ? [] : (repository.check(path)?.findings ?? []);
  const related = findings.flatMap((each) => each.related.map((place) => place.path));
  return related.filter((each) => repository.document(each)?.kind === 'installation').map(nameOf);
}

/** What was edited comes before what it touched, and wells before what stands behind them. */
function rankOf({ kind, change }: Comparison): number {
  if (change === 'affected') return 3;
  if (kind === 'installation') return 0;
  return kind === 'policy' ? 2 : 1;
}
