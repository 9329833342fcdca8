import type { TextEdit } from '../text/problem.ts';
import type { Range, Span } from '../text/span.ts';

export type Severity = 'error' | 'warning' | 'note';

/** A number with its unit as a reader sees it. */
export interface Measure {
  readonly number: number;
  readonly unit: string;
}

/** A place that a finding rests on, perhaps in another document. */
export interface Related {
  readonly path: string;
  readonly key: string;
  readonly span: Span;
  readonly range: Range;
  readonly message: string;
}

export interface DocumentEdit extends TextEdit {
  readonly path: string;
}

export interface Fix {
  readonly title: string;
  readonly kind: 'mechanical' | 'offer';
  readonly edits: readonly DocumentEdit[];
}

/** A finding that went through the gate: it has a place, a severity after policy, and a settled order. */
export interface Finding {
  readonly check: string;
  readonly severity: Severity;
  readonly message: string;
  /** Path of the document it stands in. */
  readonly path: string;
  /** Dotted key of the entry; for an absent entry where it should be; empty for the whole document. */
  readonly key: string;
  readonly span: Span;
  readonly range: Range;
  /** Name of the operating case, if one sets it. */
  readonly case: string | undefined;
  readonly value: Measure | undefined;
  readonly limit: Measure | undefined;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
  readonly deviated: boolean;
}

/** How one check ended for one file. */
export type CheckStatus =
  | { readonly status: 'passed'; readonly margin: Measure | undefined }
  | { readonly status: 'finding' }
  | { readonly status: 'deviated'; readonly reason: string; readonly until: string }
  | { readonly status: 'not_run'; readonly missing: readonly string[] }
  | { readonly status: 'not_applicable' }
  | { readonly status: 'set_aside'; readonly reason: string };
