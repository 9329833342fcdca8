import { RAL } from 'vscode-languageserver';
import {
  type Document,
  type DocumentKind,
  type Finding,
  folderOf,
  isInside,
  POLICY_FILE,
  type Policy,
  type Reference,
  referencesOf,
} from '../engine/index.ts';
import { type Lift, liftOf } from './lift.ts';
import { type NamedPlace, namedPlaces } from './named-places.ts';
import type { WellLine } from './views/counts.ts';
import type { Workspace } from './workspace.ts';

/** By what a document is found. */
export interface ListedDocument {
  readonly path: string;
  readonly kind: DocumentKind | undefined;
  /** The well or data sheet, and its serial numbers. */
  readonly names: readonly NamedPlace[];
  /** The lift that it is for, where it tells. */
  readonly lift: Lift | undefined;
  /** Paths that it refers to. */
  readonly references: readonly string[];
}

/** A document as it is listed. */
export function listedAs(document: Document, references: readonly Reference[]): ListedDocument {
  return {
    path: document.path,
    kind: document.kind,
    names: namedPlaces(document),
    lift: liftOf(document),
    references: references.map((each) => each.path),
  };
}

/** What is kept of a document that no editor holds: its findings, and what they rest on. */
export interface ClosedDocument extends ListedDocument {
  readonly findings: readonly Finding[];
  readonly policy: Policy;
  /** What the checks across files saw of the others. */
  readonly surroundings: string;
  /** Of an installation: what it is listed by. */
  readonly well: WellLine | undefined;
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
  /** Read, and not checked yet. */
  readonly #read = new Map<string, ListedDocument>();
  /** Found, and not compared with the others yet: all are read once before the first is checked. */
  readonly #unread = new Set<string>();
  readonly #due = new Set<string>();
  /** Heard of for the first time: a policy may leave them out, which only a search tells. */
  readonly #strangers = new Set<string>();
  #mustFind = false;
  /** Compared with others that are no longer as they were. */
  readonly #unsure = new Set<string>();
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
    this.#mustFind = false;
    const strangers = [...this.#strangers];
    this.#strangers.clear();
    const found = new Set<string>();
    const { folders, host } = this.#workspace;
    for (const folder of folders) for (const path of await host.files.find(folder)) found.add(path);
    for (const path of found) if (!this.#known.has(path)) this.#unread.add(path);
    for (const path of [...this.#known.keys(), ...strangers]) if (!found.has(path)) this.#leave(path);
  }

  /** How many documents are to be looked at. */
  get workLeft(): number {
    return this.#unread.size + this.#due.size;
  }

  get hasWork(): boolean {
    return this.#mustFind || this.workLeft + this.#unsure.size + this.#done.size > 0;
  }

  /** Whether a path lies in the workspace, so that its document is of interest also when no editor holds it. */
  follows(path: string): boolean {
    return /\.ya?ml$/.test(path) && this.#workspace.folders.some((folder) => isInside(path, folder));
  }

  /** Notes which documents rest on paths that changed. */
  affectedBy(paths: readonly string[]): void {
    const changed = new Set(paths);
    const policies = paths.filter((path) => path.endsWith(`/${POLICY_FILE}`)).map(folderOf);
    for (const path of paths.filter((each) => this.follows(each))) {
      if (this.#known.has(path) || this.#workspace.open.get(path) !== undefined) this.#due.add(path);
      else this.#strangers.add(path);
    }
    this.#mustFind ||= policies.length > 0 || this.#strangers.size > 0;
    for (const { path, references } of this.#known.values()) {
      const isGoverned = policies.some((folder) => isInside(path, folder));
      if (isGoverned || references.some((each) => changed.has(each))) this.#due.add(path);
    }
  }

  /** Notes that what an installation gives the others to compare with has changed. */
  compareAnew(): void {
    for (const { path, kind } of this.#known.values()) if (kind === 'installation') this.#unsure.add(path);
  }

  usersOf(path: string): readonly string[] {
    return this.listed()
      .filter(({ references }) => references.includes(path))
      .map((each) => each.path);
  }

  get(path: string): ClosedDocument | undefined {
    return this.#known.get(path);
  }

  all(): IterableIterator<ClosedDocument> {
    return this.#known.values();
  }

  /** All that have been read, also those that have not been checked yet. */
  listed(): readonly ListedDocument[] {
    return [...this.#known.values(), ...this.#read.values()];
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
    await Promise.race([this.#finding, elapsed(PATIENCE)]);
    await this.#work(now, PATIENCE);
  }

  /** Reads all that was found, for one who must know of every reference. */
  async readAll(): Promise<void> {
    await (this.#mustFind ? this.find() : this.#finding);
    for (const path of this.#unread) {
      this.#unread.delete(path);
      this.#due.add(path);
      await this.#readIn(path);
    }
  }

  async #work(now: () => number, time: number): Promise<void> {
    const until = now() + time;
    if (this.#mustFind) await this.find();
    for (const path of this.#unread) {
      this.#unread.delete(path);
      this.#due.add(path);
      await this.#readIn(path);
      if (now() >= until) return;
    }
    for (const path of this.#unsure) {
      this.#unsure.delete(path);
      this.#compare(path);
      if (now() >= until) return;
    }
    for (const path of this.#due) {
      this.#due.delete(path);
      await this.#check(path);
      if (now() >= until) return;
    }
  }

  async #readIn(path: string): Promise<void> {
    const change = await this.#workspace.readClosed(path);
    const document = change !== undefined && 'text' in change ? this.#workspace.shelve(change) : undefined;
    if (document === undefined || this.#known.has(path)) return;
    this.#read.set(path, listedAs(document, referencesOf(document)));
  }

  /** Lets go of what is gone, or left out by now. */
  #leave(path: string): void {
    this.#workspace.drop(path);
    this.#read.delete(path);
    this.#due.delete(path);
    if (this.#known.delete(path)) this.#done.add(path);
  }

  #compare(path: string): void {
    const known = this.#known.get(path);
    if (known !== undefined && this.#workspace.surroundingsOf(path, known.policy) !== known.surroundings)
      this.#due.add(path);
  }

  async #check(path: string): Promise<void> {
    const isOurs = this.follows(path) && this.#workspace.open.get(path) === undefined;
    const checked = isOurs ? await this.#workspace.checkClosed(path) : undefined;
    // Newer news of it are on the way, and make it due again.
    if (checked === 'overtaken') return;
    this.#read.delete(path);
    if (checked === undefined ? this.#known.delete(path) : this.#known.set(path, checked)) this.#done.add(path);
  }
}

function elapsed(time: number): Promise<void> {
  return new Promise((resolve) => RAL().timer.setTimeout(resolve, time));
}
