import { type Change, folderOf, isInside } from '../../engine/index.ts';
import { findFiles } from './find.ts';
import { readTextFile } from './read.ts';
import { Roots } from './root.ts';

/** A working directory in which no document lies. */
const NOWHERE = '/dev/null';

/** Files of this machine for the language server: the folders of the workspace stand for the working directory. */
export class ServedFiles {
  #workspaces: readonly { readonly folder: string; readonly roots: Roots }[] = [];
  #outside = new Roots(NOWHERE);

  /** What is remembered of repositories and policies is forgotten with each call. */
  open(folders: readonly string[]): void {
    this.#workspaces = folders.map((folder) => ({ folder, roots: new Roots(folder) }));
    this.#outside = new Roots(NOWHERE);
  }

  rootOf(path: string): string {
    return this.#rootsFor(path).of(path);
  }

  /** @param asked files, each with the roots of those who refer to it; without any its own root counts */
  read(asked: readonly { readonly path: string; readonly roots: readonly string[] }[]): readonly Change[] {
    return asked.map(({ path, roots: users }) => {
      const roots = this.#rootsFor(path);
      const root = roots.of(path);
      const within = users.length > 0 ? users : [root];
      if (within.some((each) => roots.leadsOut(path, each))) return { path, outside: true };
      return { path, root, ...readTextFile(path) };
    });
  }

  find(folder: string): readonly string[] {
    return findFiles([folder], this.#rootsFor(`${folder}/.`)).files.map(({ path }) => path);
  }

  #rootsFor(path: string): Roots {
    return this.#workspaces.find(({ folder }) => isInside(folderOf(path), folder))?.roots ?? this.#outside;
  }
}
