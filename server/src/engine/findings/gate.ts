import type { Finding, Related, Severity } from './finding.ts';
import type { Place, RawFinding, RelatedPlace } from './raw.ts';

/** What policy and deviations say of a finding; data, so that the gate need not know where it was read. */
export interface Ruling {
  /** The severity in force: the policy's cap over the check's own. */
  readonly severity: Severity;
  readonly deviated: boolean;
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };
const MOST_OF_A_CHECK = 100;

/** Whether a severity is at or above another. */
export function atLeast(severity: Severity, threshold: Severity): boolean {
  return RANK[severity] <= RANK[threshold];
}

/** The lower of two severities: a policy may soften a check, never harden one finding above what the check says. */
export function capped(severity: Severity, cap: Severity | undefined): Severity {
  return cap === undefined || RANK[severity] >= RANK[cap] ? severity : cap;
}

/**
 * The one gate through which findings pass: each gets its range and its severity in force, and all get their order.
 * @throws Error for a finding without a place in its text: a mistake of the check that made it
 */
export function admit(raw: readonly RawFinding[], rule: (finding: RawFinding) => Ruling): readonly Finding[] {
  return truncate(raw.map((each) => admitOne(each, rule(each))).sort(byPlace));
}

function admitOne(raw: RawFinding, ruling: Ruling): Finding {
  const { document, key, span } = checkedPlace(raw);
  return {
    check: raw.check,
    severity: ruling.severity,
    message: raw.message,
    path: document.path,
    key,
    span,
    range: document.source.rangeOf(span),
    case: raw.case,
    value: raw.value,
    limit: raw.limit,
    related: (raw.related ?? []).map(relatedOf),
    fixes: raw.fixes ?? [],
    deviated: ruling.deviated,
  };
}

function relatedOf(each: RelatedPlace): Related {
  if ('elsewhere' in each) return { ...each.elsewhere, message: each.message };
  const { document, key, span } = each.place;
  return { path: document.path, key, span, range: document.source.rangeOf(span), message: each.message };
}

function checkedPlace({ check, place }: RawFinding): Place {
  const { start, end } = place.span;
  const inside = start >= 0 && start <= end && end <= place.document.source.length;
  if (!inside) throw new Error(`${check} reports a place outside of ${place.document.path}`);
  return place;
}

function byPlace(a: Finding, b: Finding): number {
  return (
    a.span.start - b.span.start ||
    RANK[a.severity] - RANK[b.severity] ||
    compareText(a.check, b.check) ||
    compareText(a.message, b.message)
  );
}

/** Order by code units: the same on every machine, whatever its language. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** At most a hundred findings of one check and file; the last one counts the rest. */
function truncate(findings: readonly Finding[]): readonly Finding[] {
  const counts = new Map<string, number>();
  const numbered = findings.map((finding) => {
    const place = (counts.get(finding.check) ?? 0) + 1;
    counts.set(finding.check, place);
    return { finding, place };
  });
  return numbered.flatMap(({ finding, place }) => {
    if (place !== MOST_OF_A_CHECK) return place < MOST_OF_A_CHECK ? [finding] : [];
    const rest = (counts.get(finding.check) as number) - MOST_OF_A_CHECK + 1;
    if (rest === 1) return [finding];
    return [{ ...finding, message: `… and ${rest} more of ${finding.check} in this file.`, fixes: [], related: [] }];
  });
}
