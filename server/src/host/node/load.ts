import { type Change, POLICY_FILE, Repository, type RepositoryOptions } from '../../engine/index.ts';
import { readTextFile } from './read.ts';
import type { Roots } from './root.ts';
import type { Trouble } from './walk.ts';

export interface Loaded {
  readonly repository: Repository;
  /** Files that were asked for, or govern those that were, and could not be read. */
  readonly troubles: readonly Trouble[];
}

/** Reads documents, and then what they want until they want nothing more. */
export function loadDocuments(paths: readonly string[], roots: Roots, options: RepositoryOptions): Loaded {
  const changes = paths.map((path) => readDocumentFile(path, roots));
  let repository = Repository.empty(options).update(changes);
  const troubles = changes.flatMap(troubleIn);
  for (let wanted = readWanted(repository, roots); wanted.changes.length > 0; wanted = readWanted(repository, roots)) {
    troubles.push(...wanted.troubles);
    repository = repository.update(wanted.changes);
  }
  return { repository, troubles };
}

/** Reads a document as the engine is told of it: within its root, or not at all. */
export function readDocumentFile(path: string, roots: Roots): Change {
  const root = roots.of(path);
  return roots.leadsOut(path, root) ? { path, outside: true } : { path, root, ...readTextFile(path) };
}

export interface Wanted {
  readonly changes: readonly Change[];
  /** Policies that are there and cannot be read. */
  readonly troubles: readonly Trouble[];
}

/** Reads what documents refer to or may be governed by, and of which nothing is known yet. */
export function readWanted(repository: Repository, roots: Roots): Wanted {
  const changes = repository.wanted().map((path) => readReferred(path, repository, roots));
  const policies = changes.filter(({ path }) => isPolicy(path, repository.options));
  return { changes, troubles: policies.flatMap(troubleInPolicy) };
}

/** What a document refers to is read only where no symbolic link leads it out of that document's root. */
function readReferred(path: string, repository: Repository, roots: Roots): Change {
  if (path === repository.options.policy) return { path, ...readTextFile(path) };
  const users = repository.usersOf(path).map((user) => repository.rootOf(user));
  const asked = users.length === 0 ? [roots.of(path)] : users;
  if (asked.some((root) => roots.leadsOut(path, root))) return { path, outside: true };
  return { path, root: roots.of(path), ...readTextFile(path) };
}

function isPolicy(path: string, options: RepositoryOptions): boolean {
  return path === options.policy || path.endsWith(`/${POLICY_FILE}`);
}

/** Why a document that was asked for cannot be looked at. */
export function troubleIn(change: Change): readonly Trouble[] {
  const { path } = change;
  if ('absent' in change) return [{ path, reason: 'there is no such file' }];
  return troubleInPolicy(change);
}

/** A policy may well be absent; one that is there and is not heeded would be silence. */
function troubleInPolicy(change: Change): readonly Trouble[] {
  const { path } = change;
  if ('outside' in change) return [{ path, reason: 'it is a link that leads out of the repository' }];
  return 'unreadable' in change ? [{ path, reason: change.unreadable }] : [];
}
