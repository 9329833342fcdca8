import { type Change, type CheckedFile, type Document, Repository } from '../engine/index.ts';
import { type ClosedDocument, ClosedDocuments } from './closed-documents.ts';
import { type OpenDocument, OpenDocuments } from './documents.ts';
import type { LanguageHost } from './files.ts';

/**
 * The set of documents, kept in step with editors and files. What is told is only noted; `settle` takes it in, so that
 * a burst of changes costs one check.
 */
export class Workspace {
  readonly open = new OpenDocuments();
  readonly closed: ClosedDocuments;
  readonly host: LanguageHost;
  #repository: Repository;
  readonly #touched = new Set<string>();
  #settling: Promise<void> | undefined;
  #folders: readonly string[] = [];

  constructor(host: LanguageHost) {
    this.host = host;
    this.#repository = Repository.empty({ root: '', today: host.today() });
    this.closed = new ClosedDocuments(this);
  }

  get repository(): Repository {
    return this.#repository;
  }

  get folders(): readonly string[] {
    return this.#folders;
  }

  openFolders(folders: readonly string[]): void {
    this.#folders = folders;
    this.host.files.open(folders);
  }

  /** Notes that a document was opened, changed or closed, or that its file was. */
  touch(path: string): void {
    this.#touched.add(path);
  }

  /** A document that is opened anew asks again for what was not there before. */
  askAgain(path: string): void {
    const known = this.#repository.known(path);
    if (known?.state !== 'read') return;
    const lacking = known.references.filter((each) => this.#repository.known(each.path)?.state !== 'read');
    for (const each of lacking) this.touch(each.path);
  }

  /** A policy or repository that comes or goes moves the roots of what is below it. */
  rootsMoved(): void {
    this.host.files.open(this.#folders);
    for (const { path } of this.open.all()) this.touch(path);
  }

  /** Takes in all that was noted, and all that it refers to. Who awaits it never sees a stale state. */
  async settle(): Promise<void> {
    this.#followClock();
    while (!this.isSettled) {
      this.#settling ??= this.#takeIn().finally(() => {
        this.#settling = undefined;
      });
      await this.#settling;
    }
  }

  get isSettled(): boolean {
    return this.#touched.size === 0 && this.#settling === undefined;
  }

  /** Checks a document that is known; undefined for one that is not, or is not ours. */
  check(path: string): CheckedFile | undefined {
    const file = this.#repository.check(path);
    return file?.document.ours ? file : undefined;
  }

  document(path: string): Document | undefined {
    const document = this.#repository.document(path);
    return document?.ours ? document : undefined;
  }

  /** Documents that refer to a path, open or not. */
  usersOf(path: string): readonly string[] {
    return [...new Set([...this.#repository.usersOf(path), ...this.closed.usersOf(path)])].sort();
  }

  /** Checks a document and keeps only what others are compared with; the data sheets that it refers to stay known. */
  async checkOnce(change: Change): Promise<ClosedDocument | undefined> {
    const { path } = change;
    const isKept = this.#repository.known(path) !== undefined;
    await this.#feed([change]);
    const file = this.check(path);
    const known = this.#repository.known(path);
    if (!isKept) this.#repository = this.#repository.shelve([path]);
    if (file === undefined || known?.state !== 'read') return undefined;
    const references = known.references.map((each) => each.path);
    return { path, kind: file.document.kind, findings: file.findings, references };
  }

  /** Takes in what others are compared with, before any of them is checked. */
  shelve(change: Change): void {
    if (this.#repository.known(change.path) !== undefined) return;
    this.#repository = this.#repository.update([change]).shelve([change.path]);
  }

  /** Forgets a document that is gone. */
  drop(path: string): void {
    if (!this.#isWanted(path)) this.#repository = this.#repository.without([path]);
  }

  /** What stands in a file, with the root of its document. */
  async readFile(path: string): Promise<Change> {
    const [change] = await this.host.files.read([{ path, roots: [] }]);
    return change ?? { path, absent: true };
  }

  async #takeIn(): Promise<void> {
    while (this.#touched.size > 0) {
      const touched = [...this.#touched];
      this.#touched.clear();
      const changes: Change[] = [];
      for (const path of touched) {
        const change = await this.#news(path);
        if (change === undefined) this.#repository = this.#repository.without([path]);
        else changes.push(change);
      }
      await this.#feed(changes);
      this.closed.affectedBy(touched);
    }
  }

  async #news(path: string): Promise<Change | undefined> {
    const open = this.open.get(path);
    if (open !== undefined) return this.#openChange(open);
    const isNeeded = this.#isWanted(path) || this.#repository.policyPaths(path).includes(path);
    return isNeeded ? this.readFile(path) : undefined;
  }

  async #openChange({ path, text }: OpenDocument): Promise<Change> {
    const root = this.host.files.rootOf(path);
    return { path, text: text.getText(), root: typeof root === 'string' ? root : await root };
  }

  /** Takes in changes, and then what they want until they want nothing more. */
  async #feed(changes: readonly Change[]): Promise<void> {
    if (changes.length > 0) this.#repository = this.#repository.update(changes);
    for (let wanted = this.#repository.wanted(); wanted.length > 0; wanted = this.#repository.wanted()) {
      const found = await this.#readWanted(wanted);
      this.#repository = this.#repository.update(found);
    }
  }

  async #readWanted(wanted: readonly string[]): Promise<readonly Change[]> {
    const asked = wanted.filter((path) => this.open.get(path) === undefined).map((path) => this.#asked(path));
    const read = asked.length === 0 ? [] : await this.host.files.read(asked);
    const found = new Map(read.map((each) => [each.path, each]));
    // What an editor opened meanwhile is worth more than what was on disk.
    return Promise.all(
      wanted.map((path) => {
        const open = this.open.get(path);
        return open === undefined ? (found.get(path) ?? ({ path, absent: true } as const)) : this.#openChange(open);
      }),
    );
  }

  #asked(path: string) {
    return { path, roots: this.#repository.usersOf(path).map((user) => this.#repository.rootOf(user)) };
  }

  #isWanted(path: string): boolean {
    return this.#repository.usersOf(path).length > 0 || this.closed.usersOf(path).length > 0;
  }

  #followClock(): void {
    const today = this.host.today();
    if (today !== this.#repository.options.today) this.#repository = this.#repository.on(today);
  }
}
