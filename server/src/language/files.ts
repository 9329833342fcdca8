import type { Change } from '../engine/index.ts';

/** A file that is wanted, with the roots that those who refer to it may not leave. */
export interface AskedFile {
  readonly path: string;
  readonly roots: readonly string[];
}

/** Files as the language server sees them; how they are reached is the host's. */
export interface Files {
  /** Told before anything is asked, and when the folders of the workspace change. */
  open(folders: readonly string[]): void;
  /** The folder that references of a document may not leave. */
  rootOf(path: string): string | Promise<string>;
  /** What stands at paths now. Never throws. */
  read(asked: readonly AskedFile[]): readonly Change[] | Promise<readonly Change[]>;
  /** Paths of the YAML files in a folder and below that no policy leaves out. */
  find(folder: string): readonly string[] | Promise<readonly string[]>;
}

/** What is around the language server: files, and a clock. */
export interface LanguageHost {
  readonly files: Files;
  /** Today's date, `2026-03-14`. */
  today(): string;
  /** URI of the folder with the pages of the checks; undefined if there is none. */
  readonly checkPages: string | undefined;
}
