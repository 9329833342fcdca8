import type { Severity } from './finding.ts';

/** New texts of entries by dotted key; null takes an entry out. */
export type ExampleEdits = Readonly<Record<string, string | null>>;

/** What makes a check speak and what silences it; the tests run both. */
export type Example = InstallationExample | TextExample | VisitExample;

/** As changes to a clean installation, for what goes by facts. */
export interface InstallationExample {
  /** The clean installation to begin with. */
  readonly lift: 'linear' | 'rotary';
  readonly fails: ExampleEdits;
  /** Where nothing is said: nothing changed unless told. */
  readonly passes?: ExampleEdits;
  /** Further files that the changes refer to, by their path from the installation. */
  readonly beside?: Readonly<Record<string, string>>;
  /** Dotted key at which the finding stands. */
  readonly at: string;
}

/**
 * As changes to the readings of a complete visit to the clean installation. An edit whose key begins with `row ` is of the
 * reading of that item: keys of its row, or null to take it out; a second word `twice` adds another row of it.
 */
export interface VisitExample {
  readonly visit: 'linear' | 'rotary';
  readonly fails: ExampleEdits;
  /** Where nothing is said: nothing changed unless told. */
  readonly passes?: ExampleEdits;
  /** Dotted key, or the row, at which the finding stands. */
  readonly at: string;
}

/** As two whole documents, for what goes by writing. */
export interface TextExample {
  /** The characters that the finding underlines stand between « and ». */
  readonly failing: string;
  readonly passing: string;
  /** Dotted key at which the finding stands. */
  readonly at: string;
}

/** The texts of a check, from which its page, its help and its messages' links are made. */
export interface CheckTexts {
  /** `subject.what-is-wrong`. */
  readonly id: string;
  /** The greatest severity that it reports. */
  readonly severity: Severity;
  readonly title: string;
  readonly compares: string;
  readonly why: string;
  readonly mend: string;
  /** Publication, "common practice, no source", or "the document format". */
  readonly source: string;
  readonly example?: Example;
}
