import { type Change, foldersUp, POLICY_FILE, Repository, type RepositoryOptions } from '../../engine/index.ts';
import { findFiles } from './find.ts';
import { changedFiles, RevisionFiles } from './git.ts';
import { Ignored } from './ignored.ts';
import { loadDocuments } from './load.ts';
import { readTextFile } from './read.ts';
import type { Roots } from './root.ts';
import { mayBeDocument, type Trouble } from './walk.ts';

/** Two states of the documents of one repository, under the same paths. */
export interface States {
  readonly before: Repository;
  readonly after: Repository;
  readonly troubles: readonly Trouble[];
}

export interface Revisions {
  /** Top folder of the repository, absolute with `/`. */
  readonly root: string;
  /** Full names of revisions. */
  readonly from: string;
  /** The files as they lie there now, where none is named. */
  readonly to: string | undefined;
}

/**
 * Reads all documents of two revisions. What did not change between them is read once; what the policy leaves out now is
 * left out on both sides.
 * @throws Refusal where git cannot say
 */
export function loadRevisions({ root, from, to }: Revisions, roots: Roots, options: RepositoryOptions): States {
  const { repository: after, troubles } =
    to === undefined ? loadWorkingTree(root, roots, options) : loadRevision(root, to, roots, options);
  const ignored = new IgnoredDocuments(root, options.policy, (path) => textIn(after, path));
  const changed = changedFiles(root, from, to).filter(
    (path) => mayBeDocument(path) && (after.known(path) !== undefined || !ignored.has(path)),
  );
  const files = new RevisionFiles(root, from);
  const before = completed(after.update(changesFrom(files, changed, roots)), files, roots);
  return { before, after, troubles };
}

function loadWorkingTree(root: string, roots: Roots, options: RepositoryOptions) {
  const found = findFiles([root], roots, options.policy);
  const paths = found.files.map(({ path }) => path);
  const loaded = loadDocuments(paths, roots, options);
  return { repository: loaded.repository, troubles: [...found.troubles, ...loaded.troubles] };
}

function loadRevision(root: string, revision: string, roots: Roots, options: RepositoryOptions) {
  const files = new RevisionFiles(root, revision);
  const candidates = files.below(root).filter(mayBeDocument);
  const policies = candidates.filter((path) => path.endsWith(`/${POLICY_FILE}`));
  const texts = new Map(
    files.read(policies).map((reading, at) => [policies[at], 'text' in reading ? reading.text : undefined]),
  );
  const ignored = new IgnoredDocuments(root, options.policy, (path) => texts.get(path));
  const changes = changesFrom(
    files,
    candidates.filter((path) => !ignored.has(path)),
    roots,
  );
  return {
    repository: completed(Repository.empty(options).update(changes), files, roots),
    troubles: troublesIn(changes),
  };
}

function changesFrom(files: RevisionFiles, paths: readonly string[], roots: Roots): readonly Change[] {
  return files.read(paths).map((reading, at) => {
    const path = paths[at] ?? '';
    return { path, root: roots.of(path), ...reading };
  });
}

function troublesIn(changes: readonly Change[]): readonly Trouble[] {
  return changes.flatMap((change) =>
    'unreadable' in change ? [{ path: change.path, reason: change.unreadable }] : [],
  );
}

/** With all that its documents want; a policy that was named holds for every revision as it is now. */
function completed(start: Repository, files: RevisionFiles, roots: Roots): Repository {
  let repository = start;
  for (let wanted = repository.wanted(); wanted.length > 0; wanted = repository.wanted()) {
    const { policy } = repository.options;
    const named = wanted.filter((path) => path === policy).map((path): Change => ({ path, ...readTextFile(path) }));
    const others = changesFrom(
      files,
      wanted.filter((path) => path !== policy),
      roots,
    );
    repository = repository.update([...named, ...others]);
  }
  return repository;
}

function textIn(repository: Repository, path: string): string | undefined {
  return repository.document(path)?.source.text;
}

/** What the policies of a repository leave out, told file by file. */
class IgnoredDocuments {
  readonly #root: string;
  readonly #policy: string | undefined;
  readonly #textOf: (path: string) => string | undefined;
  readonly #byFolders = new Map<string, Ignored>();

  constructor(root: string, policy: string | undefined, textOf: (path: string) => string | undefined) {
    this.#root = root;
    this.#policy = policy;
    this.#textOf = textOf;
  }

  has(path: string): boolean {
    const folders = foldersUp(path, this.#root);
    const key = folders[0] ?? '';
    const known = this.#byFolders.get(key) ?? this.#read(folders);
    this.#byFolders.set(key, known);
    return known.has(path, false);
  }

  #read(folders: readonly string[]): Ignored {
    if (this.#policy !== undefined) return new Ignored().withPolicy(this.#policy);
    return folders.reduce((ignored, folder) => {
      const path = `${folder}/${POLICY_FILE}`;
      const text = this.#textOf(path);
      return text === undefined ? ignored : ignored.withPolicyText(path, text);
    }, new Ignored());
  }
}
