/**
 * What client and server say to each other beyond the Language Server Protocol. Plain types, so that a client needs no
 * library of ours to speak it.
 */

/** `initializationOptions` of the client; all are optional. */
export interface ClientOptions {
  /** The client answers `setproof/read` and `setproof/find`: for files that the server cannot reach itself. */
  readonly servesFiles?: boolean;
  /** URI of the folder with a page for each check, `ID.md`; without it the server takes the pages beside it, if any. */
  readonly checkPages?: string;
  /** Day on which checks are made, `2026-03-14`, instead of today. */
  readonly today?: string;
  /**
   * Commands of the client that a code lens may call, each with the document's URI as its only argument; those named in
   * `LENS_COMMANDS` count. A client that names none gets no lenses.
   */
  readonly commands?: readonly string[];
}

export const OPEN_WORKSHEET = 'setproof.openWorksheet';
export const OPEN_CHECKLIST = 'setproof.openChecklist';
export const SHOW_NOT_RUN = 'setproof.showNotRun';
export const LENS_COMMANDS: readonly string[] = [OPEN_WORKSHEET, OPEN_CHECKLIST, SHOW_NOT_RUN];

/** Asks the client for the texts of files, in the order asked. */
export const READ = 'setproof/read';
export interface ReadParams {
  readonly uris: readonly string[];
}
export type ReadAnswer =
  | { readonly text: string }
  | { readonly absent: true }
  /** Why it cannot be read, in words. */
  | { readonly unreadable: string };
export interface ReadResult {
  readonly files: readonly ReadAnswer[];
}

/** Asks the client for the URIs of the YAML files in a folder and below. */
export const FIND = 'setproof/find';
export interface FindParams {
  readonly folder: string;
}
export interface FindResult {
  readonly uris: readonly string[];
}
