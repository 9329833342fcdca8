import type { Connection } from 'vscode-languageserver';
import { type Change, folderOf, isInside, POLICY_FILE } from '../engine/index.ts';
import type { AskedFile, Files } from './files.ts';
import {
  FIND,
  type FindParams,
  type FindResult,
  READ,
  type ReadAnswer,
  type ReadParams,
  type ReadResult,
} from './protocol.ts';
import { toPath, toUri } from './uris.ts';

const MARKS = ['.git', POLICY_FILE];

/** Files that only the client can reach: those of virtual workspaces and of the editor in the browser. */
export class ClientFiles implements Files {
  readonly #connection: Connection;
  #folders: readonly string[] = [];
  #marked = new Map<string, Promise<string | undefined>>();

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  open(folders: readonly string[]): void {
    this.#folders = folders;
    this.#marked = new Map();
  }

  /**
   * The nearest folder upwards, within the workspace, that holds a repository or a policy; else the folder of the
   * workspace, and outside of any the parent of the document's folder.
   */
  async rootOf(path: string): Promise<string> {
    const folder = folderOf(path);
    const workspace = this.#folders.find((each) => isInside(folder, each));
    const marked = workspace === undefined ? undefined : await this.#markedAbove(folder, workspace);
    return marked ?? workspace ?? (folderOf(folder) || folder);
  }

  async read(asked: readonly AskedFile[]): Promise<readonly Change[]> {
    const answers = await this.#ask(asked.map(({ path }) => path));
    return Promise.all(
      asked.map(async ({ path }, at) => {
        const answer = answers[at] ?? { absent: true };
        return 'text' in answer ? { path, root: await this.rootOf(path), text: answer.text } : { path, ...answer };
      }),
    );
  }

  async find(folder: string): Promise<readonly string[]> {
    const { uris } = await this.#connection
      .sendRequest<FindResult>(FIND, { folder: toUri(folder) } satisfies FindParams)
      .catch((): FindResult => ({ uris: [] }));
    return uris.map(toPath);
  }

  #markedAbove(folder: string, top: string): Promise<string | undefined> {
    const known = this.#marked.get(folder);
    if (known !== undefined) return known;
    const found = this.#findMark(folder, top);
    this.#marked.set(folder, found);
    return found;
  }

  async #findMark(folder: string, top: string): Promise<string | undefined> {
    const answers = await this.#ask(MARKS.map((mark) => `${folder}/${mark}`));
    if (answers.some((each) => !('absent' in each))) return folder;
    return folder === top ? undefined : this.#markedAbove(folderOf(folder), top);
  }

  async #ask(paths: readonly string[]): Promise<readonly ReadAnswer[]> {
    const params: ReadParams = { uris: paths.map(toUri) };
    const unreadable = (reason: string): ReadAnswer => ({ unreadable: reason });
    return this.#connection.sendRequest<ReadResult>(READ, params).then(
      ({ files }) => files,
      () => paths.map(() => unreadable('the editor did not hand it over')),
    );
  }
}
