import type { Document } from '../format/document.ts';
import type { Span } from '../text/span.ts';
import type { Fix, Measure, Related, Severity } from './finding.ts';

/** A place in one of the documents at hand: an entry, or where an absent one should be. */
export interface Place {
  readonly document: Document;
  /** Dotted key in that document. */
  readonly key: string;
  readonly span: Span;
}

/** A place that a finding rests on: in a document at hand, or in another installation, of which only facts are. */
export type RelatedPlace = ({ readonly place: Place } | { readonly elsewhere: Omit<Related, 'message'> }) & {
  readonly message: string;
  /** Whether it is itself a finding, which goes back to this one. */
  readonly follows?: true;
};

/** What a check reports, before the gate gives it a severity in force, a range and its order. */
export interface RawFinding {
  readonly check: string;
  readonly severity: Severity;
  readonly message: string;
  readonly place: Place;
  readonly case?: string | undefined;
  readonly value?: Measure | undefined;
  readonly limit?: Measure | undefined;
  readonly related?: readonly RelatedPlace[];
  readonly fixes?: readonly Fix[];
}
