/** What the views of an editor ask the server, beyond the Language Server Protocol. Plain types, as in `../protocol.ts`. */

interface Position {
  readonly line: number;
  readonly character: number;
}

/** A place in a document that a view leads to. */
export interface Place {
  readonly uri: string;
  /** Counted from 0, as the protocol does. */
  readonly start: Position;
  readonly end: Position;
}

interface OnDocument {
  readonly textDocument: { readonly uri: string };
}

export type PanelName = 'worksheet' | 'checklist';

/** A panel's content as it stands: null for a document that is no installation. */
export const PANEL = 'setproof/panel';
export interface PanelParams extends OnDocument {
  readonly panel: PanelName;
  /** `id` of what is shown already. */
  readonly shown?: string | undefined;
}
export type PanelResult =
  | { readonly id: string; readonly unchanged: true }
  | {
      readonly id: string;
      readonly title: string;
      /** Escaped; an element with `data-place="3"` leads to `places[3]`. */
      readonly html: string;
      readonly places: readonly Place[];
      /** The documents that it rests on, besides its own. */
      readonly sheets: readonly string[];
    }
  | null;

/** What in a panel rests on the entry at a cursor, in the installation itself or in one of its data sheets. */
export const FOLLOW = 'setproof/follow';
export interface FollowParams extends OnDocument {
  readonly panel: PanelName;
  readonly cursor: { readonly uri: string; readonly position: Position };
}
export interface FollowResult {
  /** The entry, and what rests on it, in words. */
  readonly words: string;
  /** `id`s of elements of the panel, in its order. */
  readonly anchors: readonly string[];
}

/** A whole page to keep or to print; null for a document that is no installation. */
export const PAGE = 'setproof/page';
export interface PageParams extends OnDocument {
  readonly panel: PanelName;
  readonly paper: 'a4' | 'letter';
}
export interface PageResult {
  /** A file's name for it, without an ending. */
  readonly name: string;
  readonly html: string;
}

/** How many findings a document has, and how many checks were not run. */
export interface Counts {
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  readonly deviated: number;
  readonly notRun: number;
}

/** Counts of an open document, and what was not run; null for a document of others. */
export const SUMMARY = 'setproof/summary';
export interface SummaryResult {
  readonly counts: Counts;
  readonly words: string;
  readonly isInstallation: boolean;
  readonly notRun: readonly NotRun[];
}
export interface NotRun {
  readonly check: string;
  readonly title: string;
  readonly missing: readonly string[];
  /** Where the first of the missing entries should be. */
  readonly place: Place;
}

/** The installations of the workspace. */
export const WELLS = 'setproof/wells';
export interface WellsResult {
  readonly wells: readonly Well[];
  /** How many documents are still to be looked at. */
  readonly left: number;
}
export interface Well {
  readonly uri: string;
  /** As the document names it. */
  readonly name: string;
  /** Folder within the workspace, and the file's own name. */
  readonly folder: string;
  readonly file: string;
  readonly words: string;
}

/** A commented document to begin with. */
export const STARTER = 'setproof/starter';
export interface StarterParams {
  readonly kind: string;
  readonly lift?: 'linear' | 'rotary' | undefined;
}
export interface StarterResult {
  readonly text: string;
}

/** What changed in an installation since a revision; null for a document that is no installation. */
export const COMPARISON = 'setproof/comparison';
export interface ComparisonParams extends OnDocument {
  readonly revision: Revision;
}
export interface ComparisonResult {
  readonly title: string;
  /** Escaped. */
  readonly html: string;
}
export interface Revision {
  /** What names it for certain. */
  readonly id: string;
  /** What people call it. */
  readonly label: string;
}

/** Asks the client for texts as they stood at a revision; the answer is that of `setproof/read`. */
export const READ_AT = 'setproof/readAt';
export interface ReadAtParams {
  readonly revision: string;
  readonly uris: readonly string[];
}
