import type { Event, Uri } from 'vscode';

/** What is used of the built-in `vscode.git` extension, version 1 of its programming interface. */
export interface GitExtension {
  readonly enabled: boolean;
  readonly onDidChangeEnablement: Event<boolean>;
  getAPI(version: 1): GitApi;
}
export interface GitApi {
  readonly repositories: readonly GitRepository[];
  readonly onDidOpenRepository: Event<GitRepository>;
  readonly onDidCloseRepository: Event<GitRepository>;
  getRepository(uri: Uri): GitRepository | null;
}
export interface GitRepository {
  log(options: { readonly maxEntries: number; readonly path?: string }): Promise<readonly Commit[]>;
  /** The text of a file at a revision; rejects if it was not there. */
  show(revision: string, path: string): Promise<string>;
}
export interface Commit {
  readonly hash: string;
  readonly message: string;
  readonly authorDate?: Date;
}
