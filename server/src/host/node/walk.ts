import { type Dirent, readdirSync, type Stats, statSync } from 'node:fs';
import { compareText, POLICY_FILE } from '../../engine/index.ts';
import type { Ignored } from './ignored.ts';
import { reasonOf } from './reasons.ts';
import { type Roots, realPath } from './root.ts';

/** Something that could not be looked at, with the reason in words. */
export interface Trouble {
  readonly path: string;
  readonly reason: string;
}

export interface Walked {
  readonly files: readonly string[];
  readonly troubles: readonly Trouble[];
}

const SKIPPED = new Set(['node_modules', '.git']);
const DOCUMENT = /\.ya?ml$/i;

/** Whether a file is worth opening to see if it is a document. */
export function mayBeDocument(path: string): boolean {
  return DOCUMENT.test(path);
}

/**
 * All files below a folder that may be documents. Symbolic links are followed last, and only inside the root: what they
 * lead to is named by its own path if the walk came there anyway, and a circle ends at once.
 * @param ignored patterns in force in that folder; those of policies further down are added on the way
 * @param readsPolicies false where one policy holds everywhere
 */
export function walk(folder: string, roots: Roots, ignored: Ignored, readsPolicies: boolean): Walked {
  const walking = new Walk(roots, roots.ofFolder(folder), readsPolicies);
  walking.enter(folder, ignored);
  walking.followLinks();
  return { files: walking.files, troubles: walking.troubles };
}

class Walk {
  readonly files: string[] = [];
  readonly troubles: Trouble[] = [];
  readonly #roots: Roots;
  readonly #root: string;
  readonly #readsPolicies: boolean;
  /** Real paths of all that was entered or taken. */
  readonly #seen = new Set<string>();
  readonly #links: { readonly path: string; readonly ignored: Ignored }[] = [];

  constructor(roots: Roots, root: string, readsPolicies: boolean) {
    this.#roots = roots;
    this.#root = root;
    this.#readsPolicies = readsPolicies;
  }

  enter(folder: string, ignored: Ignored): void {
    if (!this.#isNew(folder)) return;
    const entries = this.#list(folder);
    const hasPolicy = this.#readsPolicies && entries.some(({ name }) => name === POLICY_FILE);
    const inForce = hasPolicy ? ignored.withPolicyIn(folder) : ignored;
    for (const entry of entries) this.#take(entry, `${folder}/${entry.name}`, inForce);
  }

  followLinks(): void {
    for (let link = this.#links.shift(); link !== undefined; link = this.#links.shift()) {
      this.#follow(link.path, link.ignored);
    }
  }

  #take(entry: Dirent, path: string, ignored: Ignored): void {
    if (SKIPPED.has(entry.name) || ignored.has(path, entry.isDirectory())) return;
    if (entry.isSymbolicLink()) this.#links.push({ path, ignored });
    else if (entry.isDirectory()) this.enter(path, ignored);
    else if (entry.isFile() && mayBeDocument(path)) this.#addFile(path);
  }

  #addFile(path: string): void {
    this.#seen.add(path);
    this.files.push(path);
  }

  #follow(path: string, ignored: Ignored): void {
    const status = this.#statusOf(path);
    const isFolder = status?.isDirectory() ?? false;
    if (status === undefined || !(isFolder || (status.isFile() && mayBeDocument(path)))) return;
    if (isFolder && ignored.has(path, true)) return;
    if (this.#roots.leadsOut(path, this.#root)) this.#report(path, 'it is a link that leads out of the repository');
    else if (isFolder) this.enter(path, ignored);
    else if (this.#isNew(path)) this.files.push(path);
  }

  /** What a link leads to; a circle of links, or a folder that is shut, is told of. */
  #statusOf(path: string): Stats | undefined {
    try {
      return statSync(path, { throwIfNoEntry: false });
    } catch (error) {
      this.#report(path, reasonOf(error));
      return undefined;
    }
  }

  #isNew(path: string): boolean {
    const real = realPath(path) ?? path;
    if (this.#seen.has(real)) return false;
    this.#seen.add(real);
    return true;
  }

  #list(folder: string): readonly Dirent[] {
    try {
      return readdirSync(folder, { withFileTypes: true }).sort((a, b) => compareText(a.name, b.name));
    } catch (error) {
      this.#report(folder, reasonOf(error));
      return [];
    }
  }

  #report(path: string, reason: string): void {
    this.troubles.push({ path, reason });
  }
}
