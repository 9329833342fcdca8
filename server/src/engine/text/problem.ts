import type { Span } from './span.ts';

/** A change to a text. Spans refer to the text before any edit of the same fix. */
export interface TextEdit {
  readonly span: Span;
  readonly newText: string;
}

/**
 * A way to mend a problem. `mechanical` changes spelling only and may be applied without asking; an `offer` changes or
 * chooses an engineering value and is never applied unasked.
 */
export interface TextFix {
  readonly title: string;
  readonly kind: 'mechanical' | 'offer';
  readonly edits: readonly TextEdit[];
}

/** What syntax, format and quantities find in one text, as data; the gate for findings gives it a severity. */
export interface Problem {
  /** Id of the check that this is a finding of, such as `units.missing`. */
  readonly check: string;
  /** Only where it is not the check's own. */
  readonly severity?: 'error' | 'warning';
  readonly message: string;
  readonly span: Span;
  readonly fixes: readonly TextFix[];
}
