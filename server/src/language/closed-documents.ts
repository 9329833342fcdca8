import { type DocumentKind, type Finding, folderOf, isInside, POLICY_FILE } from '../engine/index.ts';
import type { Workspace } from './workspace.ts';

/** What is kept of a document that no editor holds: its findings, and what they rest on. */
export interface ClosedDocument {
  readonly path: string;
  readonly kind: DocumentKind | undefined;
  readonly findings: readonly Finding[];
  readonly references: readonly string[];
}

/** How long a slice of work may keep an author waiting, ms. */
const SLICE = 8;
/** How long one waits who has asked, ms. */
const PATIENCE = 100;

/**
 * The documents of the workspace that no editor holds. They are checked in slices while nothing else is to be done, and
 * only their findings are kept: a workspace may hold ten thousand.
 */
export class ClosedDocuments {
  readonly #workspace: Workspace;
  readonly #known = new Map<string, ClosedDocument>();
  /** Found, and not compared with the others yet: all are read once before the first is checked. */
  readonly #unread = new Set<string>();
  readonly #due = new Set<string>();
  /** Checked since the last slice was handed over. */
  readonly #done = new Set<string>();
  #finding: Promise<void> = Promise.resolve();

  constructor(workspace: Workspace) {
    this.#workspace = workspace;
  }

  /** Finds the documents of the workspace; they are due for a check from then on. */
  find(): Promise<void> {
    this.#finding = this.#find();
    return this.#finding;
  }

  async #find(): Promise<void> {
    for (const folder of this.#workspace.folders) {
      const found = await this.#workspace.host.files.find(folder);
      for (const path of found) this.#unread.add(path);
    }
  }

  get hasWork(): boolean {
    return this.#unread.size + this.#due.size + this.#done.size > 0;
  }

  /** Notes which documents rest on paths that changed. */
  affectedBy(paths: readonly string[]): void {
    const changed = new Set(paths);
    const policies = paths.filter((path) => path.endsWith(`/${POLICY_FILE}`)).map(folderOf);
    for (const path of paths) if (this.#isInWorkspace(path)) this.#due.add(path);
    for (const { path, references } of this.#known.values()) {
      const isGoverned = policies.some((folder) => isInside(path, folder));
      if (isGoverned || references.some((each) => changed.has(each))) this.#due.add(path);
    }
  }

  usersOf(path: string): readonly string[] {
    return [...this.#known.values()].filter(({ references }) => references.includes(path)).map((each) => each.path);
  }

  all(): IterableIterator<ClosedDocument> {
    return this.#known.values();
  }

  /**
   * Checks documents that are due until a slice of time is used up.
   * @param now a clock in ms
   * @returns the documents whose findings may have changed; those that are gone or open now have none of their own
   */
  async workSlice(now: () => number): Promise<readonly string[]> {
    await this.#work(now, SLICE);
    const done = [...this.#done];
    this.#done.clear();
    return done;
  }

  /** Looks at what is due at once, for an author who waits to see which documents there are. */
  async hurry(now: () => number): Promise<void> {
    await this.#finding;
    await this.#work(now, PATIENCE);
  }

  async #work(now: () => number, time: number): Promise<void> {
    const until = now() + time;
    for (const path of this.#unread) {
      this.#unread.delete(path);
      this.#due.add(path);
      await this.#read(path);
      if (now() >= until) return;
    }
    for (const path of this.#due) {
      this.#due.delete(path);
      const checked = await this.#check(path);
      if (checked === undefined ? this.#known.delete(path) : this.#known.set(path, checked)) this.#done.add(path);
      if (now() >= until) return;
    }
  }

  async #read(path: string): Promise<void> {
    if (this.#workspace.open.get(path) !== undefined) return;
    const change = await this.#workspace.readFile(path);
    if ('text' in change) this.#workspace.shelve(change);
  }

  async #check(path: string): Promise<ClosedDocument | undefined> {
    if (this.#workspace.open.get(path) !== undefined) return undefined;
    const change = await this.#workspace.readFile(path);
    if ('text' in change) return this.#workspace.checkOnce(change);
    this.#workspace.drop(path);
    return undefined;
  }

  #isInWorkspace(path: string): boolean {
    return /\.ya?ml$/.test(path) && this.#workspace.folders.some((folder) => isInside(path, folder));
  }
}
