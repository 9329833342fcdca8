import { type Change, type CheckedFile, type Document, type Policy, Repository } from '../engine/index.ts';
import { type ClosedDocument, ClosedDocuments, listedAs } from './closed-documents.ts';
import { OpenDocuments } from './documents.ts';
import type { AskedFile, LanguageHost } from './files.ts';
import { factsText, surroundingsOf } from './surroundings.ts';
import { wellLine } from './views/counts.ts';

/**
 * The set of documents, kept in step with editors and files. What is told is only noted; `settle` takes it in, so that
 * a burst of changes costs one check.
 *
 * Files may be slow to read, and much can happen meanwhile. So the set changes only between two waits, and what was
 * read counts only if nothing was heard of that path since: an editor's text is never overwritten by what is on disk.
 */
export class Workspace {
  readonly open = new OpenDocuments();
  readonly closed: ClosedDocuments;
  readonly host: LanguageHost;
  #repository: Repository;
  readonly #touched = new Set<string>();
  /** Counts what was heard of; beside it, when each path was last heard of. */
  #touches = 0;
  readonly #touchedAt = new Map<string, number>();
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
    this.#touchedAt.set(path, ++this.#touches);
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

  /** What the checks across files see of the others, as a text that is equal as long as they see the same. */
  surroundingsOf(path: string, policy: Policy): string {
    return surroundingsOf(this.#repository.neighboursOf(path, policy));
  }

  /** What stands in a file now; undefined if there were newer news of it while it was read, or an editor has it. */
  async readClosed(path: string): Promise<Change | undefined> {
    const [change] = this.open.get(path) === undefined ? await this.#news([{ path, roots: [] }]) : [];
    return change;
  }

  /** What a document holds now, in an editor or on disk. */
  async documentNow(path: string): Promise<Document | undefined> {
    return this.document(path) ?? this.#readOnce(path);
  }

  /** Whether there is a file, be it one that can be read or not. */
  async isOnDisk(path: string): Promise<boolean> {
    const change = await this.readClosed(path);
    return change === undefined || !('absent' in change);
  }

  /**
   * Checks a document that no editor holds and keeps only what others are compared with; the data sheets that it refers
   * to stay known.
   * @returns `overtaken` if there were newer news of it meanwhile; undefined if it is gone or not ours
   */
  async checkClosed(path: string): Promise<ClosedDocument | 'overtaken' | undefined> {
    const since = this.#touches;
    const change = await this.readClosed(path);
    if (change === undefined) return 'overtaken';
    if (!('text' in change)) {
      this.drop(path);
      return undefined;
    }
    const facts = factsText(this.#repository.factsOf(path));
    while (this.#isCurrent(path, since)) {
      const [result, lacking] = this.#checkAndLetGo(change);
      if (lacking.length === 0) {
        if (facts !== factsText(this.#repository.factsOf(path))) this.closed.compareAnew();
        return result;
      }
      const news = await this.#news(lacking);
      this.#repository = this.#repository.update(
        news.filter((each) => this.#repository.known(each.path) === undefined),
      );
    }
    return 'overtaken';
  }

  /** Takes in what others are compared with, before any of them is checked; gives the document if it is one of ours. */
  shelve(change: Change): Document | undefined {
    const { path } = change;
    if (this.#repository.known(path) !== undefined) return this.document(path);
    const withIt = this.#repository.update([change]);
    this.#repository = withIt.shelve([path]);
    const document = withIt.document(path);
    return document?.ours ? document : undefined;
  }

  /** Forgets a document that is gone; one that others refer to is known to be absent. */
  drop(path: string): void {
    if (this.#isNeeded(path)) return;
    if (this.#repository.factsOf(path) !== undefined) this.closed.compareAnew();
    this.#repository = this.#repository.without([path]);
  }

  /**
   * The result for a document, if nothing is lacking for it, and else what that is. Without a wait in it, so that nobody
   * sees the document come and go.
   */
  #checkAndLetGo(change: Change): readonly [ClosedDocument | undefined, readonly AskedFile[]] {
    const { path } = change;
    const isKept = this.#repository.known(path) !== undefined;
    this.#repository = this.#repository.update([change]);
    const lacking = this.#wanted();
    const result = lacking.length === 0 ? this.#resultOf(path) : undefined;
    if (!isKept) this.#repository = this.#repository.shelve([path]);
    return [result, lacking];
  }

  #resultOf(path: string): ClosedDocument | undefined {
    const known = this.#repository.known(path);
    const file = this.check(path);
    if (file === undefined || known?.state !== 'read') return undefined;
    const { findings, policy, document } = file;
    const surroundings = this.surroundingsOf(path, policy);
    const listed = listedAs(document, known.references);
    return { ...listed, findings, policy, surroundings, well: wellLine(file) };
  }

  async #readOnce(path: string): Promise<Document | undefined> {
    const change = await this.readClosed(path);
    if (change === undefined || !('text' in change)) return this.document(path);
    return this.#repository.update([change]).document(path);
  }

  async #takeIn(): Promise<void> {
    while (this.#touched.size > 0) {
      const touched = [...this.#touched];
      this.#touched.clear();
      const facts = this.#factsOf(touched);
      const news = await this.#news(
        touched.filter((path) => this.#isNeeded(path)).map((path) => ({ path, roots: [] })),
      );
      this.#letGo(touched.filter((path) => !this.#isNeeded(path)));
      this.#repository = this.#repository.update(news);
      await this.#readWanted();
      this.closed.affectedBy(touched);
      if (facts !== this.#factsOf(touched)) this.closed.compareAnew();
    }
  }

  #factsOf(paths: readonly string[]): string {
    return paths.map((path) => factsText(this.#repository.factsOf(path))).join('\n');
  }

  #isNeeded(path: string): boolean {
    const isOpen = this.open.get(path) !== undefined;
    return isOpen || this.#isReferredTo(path) || this.#repository.policyPaths(path).includes(path);
  }

  /** What the workspace holds is compared with the others until its file has been looked at. */
  #letGo(paths: readonly string[]): void {
    const kept = paths.filter((path) => this.closed.follows(path));
    const gone = paths.filter((path) => !this.closed.follows(path));
    this.#repository = this.#repository.shelve(kept).without(gone);
  }

  /** Reads what is wanted until nothing more is. */
  async #readWanted(): Promise<void> {
    for (let wanted = this.#wanted(); wanted.length > 0; wanted = this.#wanted()) {
      const news = await this.#news(wanted);
      this.#repository = this.#repository.update(news);
    }
  }

  /** What is lacking, each path with the roots that those who refer to it may not leave. */
  #wanted(): readonly AskedFile[] {
    const { repository } = this;
    const rootsFor = (path: string) => repository.usersOf(path).map((user) => repository.rootOf(user));
    return repository.wanted().map((path) => ({ path, roots: rootsFor(path) }));
  }

  /**
   * What stands at paths now: in editors, else on disk. Left out is what was touched while it was read: its news come
   * by themselves, and what was read may be older.
   */
  async #news(asked: readonly AskedFile[]): Promise<readonly Change[]> {
    const since = this.#touches;
    const isOpen = ({ path }: AskedFile) => this.open.get(path) !== undefined;
    const roots = await Promise.all(
      asked.filter(isOpen).map(async ({ path }) => [path, await this.#rootOf(path)] as const),
    );
    const closed = asked.filter((each) => !isOpen(each));
    const read = closed.length === 0 ? [] : await this.host.files.read(closed);
    const found = new Map(read.map((each) => [each.path, each]));
    const onDisk = closed.filter(({ path }) => this.#isCurrent(path, since));
    return [
      ...roots.flatMap(([path, root]) => this.#inEditor(path, root)),
      ...onDisk.map(({ path }) => found.get(path) ?? ({ path, absent: true } as const)),
    ];
  }

  #isCurrent(path: string, since: number): boolean {
    return this.open.get(path) === undefined && (this.#touchedAt.get(path) ?? 0) <= since;
  }

  async #rootOf(path: string): Promise<string> {
    return this.host.files.rootOf(path);
  }

  #inEditor(path: string, root: string): readonly Change[] {
    const open = this.open.get(path);
    return open === undefined ? [] : [{ path, root, text: open.text.getText() }];
  }

  #isReferredTo(path: string): boolean {
    return this.#repository.usersOf(path).length > 0 || this.closed.usersOf(path).length > 0;
  }

  #followClock(): void {
    const today = this.host.today();
    if (today !== this.#repository.options.today) this.#repository = this.#repository.on(today);
  }
}
