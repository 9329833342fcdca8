import type { RawFinding, RelatedPlace } from '../../findings/raw.ts';
import type { Document } from '../../format/document.ts';
import type { Neighbours, Sharing } from '../../links/fleet.ts';
import type { Fact, WellFacts } from '../../links/well-facts.ts';
import { listed } from '../../text/words.ts';
import type { Check } from '../declare.ts';

/** A check of one installation beside the others that are known. */
export interface AcrossCheck {
  readonly check: Check;
  /** What is found in this one, what it lacks to be compared, or nothing that concerns it. */
  readonly compare: (own: WellFacts, neighbours: Neighbours) => AcrossVerdict;
}

export type AcrossVerdict = readonly AcrossFinding[] | { readonly lacks: readonly string[] } | 'not-applicable';

export interface AcrossFinding {
  readonly at: Fact;
  readonly message: string;
  readonly related: readonly RelatedPlace[];
}

export function findingOf(
  { id, severity }: Check,
  { at, message, related }: AcrossFinding,
  document: Document,
): RawFinding {
  return { check: id, severity, message, place: { document, key: at.key, span: at.span }, related };
}

/** A fact of another installation as a place that a finding rests on. */
export function elsewhere({ path }: WellFacts, { key, span, range }: Fact, message: string): RelatedPlace {
  return { elsewhere: { path, key, span, range }, message };
}

/** The others by the names of their wells: "QM-A1, QM-A2 and 3 more". */
export function wellsOf({ count, first }: Sharing): string {
  const names = first.map(({ well }) => well.written);
  return listed(count > first.length ? [...names, `${count - first.length} more`] : names);
}

/** The others by the names of their files. */
export function filesOf({ count, first }: Sharing): string {
  const names = first.map(({ path }) => path.slice(path.lastIndexOf('/') + 1));
  return listed(count > first.length ? [...names, `${count - first.length} more`] : names);
}
