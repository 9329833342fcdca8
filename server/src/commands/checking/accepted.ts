import type { CheckedFile, Finding, Measure } from '../../engine/index.ts';

/** A finding that is accepted for now. */
export interface AcceptedEntry {
  /** Absolute, with `/`. */
  readonly path: string;
  readonly key: string;
  readonly check: string;
  readonly case?: string | undefined;
  /** What is accepted, in the author's unit; worse than that counts. */
  readonly value?: Measure | undefined;
}

export interface Matched {
  readonly accepted: ReadonlySet<Finding>;
  /** Entries, by their place in the list, of which something is found, accepted or worse. */
  readonly met: readonly number[];
}

/**
 * Which findings of a file the list accepts: each entry one. A finding that is worse than its entry counts, and the entry
 * is not settled by it; nor is one whose check was not run.
 */
export function matchAccepted(
  { document, findings, statuses }: CheckedFile,
  entries: readonly AcceptedEntry[],
): Matched {
  const accepted = new Set<Finding>();
  const met = new Set<number>();
  for (const [place, entry] of entries.entries()) {
    if (entry.path !== document.path) continue;
    const about = findings.filter((finding) => !finding.deviated && isAbout(entry, finding));
    if (about.length > 0 || statuses.get(entry.check)?.status === 'not_run') met.add(place);
    const taken = about.find((finding) => !accepted.has(finding) && isNotWorse(finding, entry));
    if (taken !== undefined) accepted.add(taken);
  }
  return { accepted, met: [...met] };
}

export function entryOf({ path, key, check, case: inCase, value }: Finding): AcceptedEntry {
  return { path, key, check, case: inCase, value: value !== undefined && isWritable(value) ? value : undefined };
}

function isWritable({ number }: Measure): boolean {
  return Number.isFinite(number);
}

function isAbout(entry: AcceptedEntry, { key, check, case: inCase }: Finding): boolean {
  return entry.key === key && entry.check === check && entry.case === inCase;
}

const ROUNDING = 1e-9;

/** Further from the limit is worse. What cannot be compared counts, the safe side. */
function isNotWorse({ value, limit }: Finding, { value: up }: AcceptedEntry): boolean {
  if (up === undefined) return true;
  if (value === undefined || value.unit !== up.unit) return false;
  if (limit === undefined) return value.number === up.number;
  const rounding = ROUNDING * Math.abs(up.number);
  return value.number >= limit.number ? value.number <= up.number + rounding : value.number >= up.number - rounding;
}
