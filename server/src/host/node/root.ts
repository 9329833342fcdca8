import { existsSync, realpathSync } from 'node:fs';
import { folderOf, isInside, POLICY_FILE } from '../../engine/index.ts';
import { withSlashes } from './paths.ts';

const MARKS = ['.git', POLICY_FILE];

/** The roots of documents: the folders that their references may not leave. */
export class Roots {
  readonly #cwd: string;
  readonly #everywhere: string | undefined;
  readonly #marked = new Map<string, string | undefined>();
  readonly #real = new Map<string, string>();

  /**
   * @param cwd working directory, absolute with `/`
   * @param everywhere root of all documents, whatever stands around them
   */
  constructor(cwd: string, everywhere?: string) {
    this.#cwd = cwd;
    this.#everywhere = everywhere;
  }

  /**
   * The nearest folder upwards with a repository or a policy in it; without one the working directory, if the document
   * lies in it, else the parent of the document's folder.
   */
  of(path: string): string {
    return this.ofFolder(folderOf(path));
  }

  ofFolder(folder: string): string {
    if (this.#everywhere !== undefined) return this.#everywhere;
    const otherwise = isInside(folder, this.#cwd) ? this.#cwd : folderOf(folder) || folder;
    return this.#markedAbove(folder) ?? otherwise;
  }

  /** Whether symbolic links lead a path out of a root. What does not exist leads nowhere. */
  leadsOut(path: string, root: string): boolean {
    const real = realPath(path);
    if (real === undefined || real === path) return false;
    return !isInside(real, this.#realRoot(root));
  }

  #realRoot(root: string): string {
    const known = this.#real.get(root);
    if (known !== undefined) return known;
    const real = realPath(root) ?? root;
    this.#real.set(root, real);
    return real;
  }

  #markedAbove(folder: string): string | undefined {
    if (this.#marked.has(folder)) return this.#marked.get(folder);
    const above = folderOf(folder);
    const marked = MARKS.some((mark) => existsSync(`${folder}/${mark}`))
      ? folder
      : above === folder || folder === ''
        ? undefined
        : this.#markedAbove(above);
    this.#marked.set(folder, marked);
    return marked;
  }
}

/** A path with its symbolic links followed; undefined if it leads nowhere. */
export function realPath(path: string): string | undefined {
  try {
    return withSlashes(realpathSync.native(path));
  } catch {
    return undefined;
  }
}
