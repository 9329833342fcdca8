import type { CheckedFile } from '../check-document.ts';
import type { Check } from '../checks/declare.ts';
import type { Outcome } from '../checks/outcome.ts';
import { READINGS_CHECKS } from '../checks/readings/all.ts';
import type { Finding, Related } from '../findings/finding.ts';
import { placeOfKey } from '../findings/places.ts';
import type { RawFinding, RelatedPlace } from '../findings/raw.ts';
import type { Document } from '../format/document.ts';
import { readDocument } from '../format/read.ts';
import { NONE } from '../syntax/tree.ts';
import { AS_LEFT_CHECKS, overlayOf, type SettingLeft, settingsLeft } from './as-left.ts';
import type { VisitCheck, VisitFinding } from './declare.ts';
import { ELECTRICAL_CHECKS } from './electrical.ts';
import { IDENTITY_CHECKS } from './identity.ts';
import { LIMIT_CHECKS } from './limits.ts';
import { ORDER_CHECKS } from './order.ts';
import { overlaid } from './overlay.ts';
import { Visit } from './visit.ts';

/** The installation that a visit was made to, and how another state of it is checked. */
export interface Visited {
  readonly planned: CheckedFile;
  readonly recheck: (document: Document) => CheckedFile;
}

const CHECKS: readonly VisitCheck[] = [
  ...IDENTITY_CHECKS,
  ...LIMIT_CHECKS,
  ...ELECTRICAL_CHECKS,
  ...ORDER_CHECKS,
  ...AS_LEFT_CHECKS,
];

/** Judges the readings of a visit by the checklist of its installation, and the installation as it was left. */
export function judgeVisit(document: Document, visited: Visited | undefined, today: string, outcome: Outcome): void {
  const visit = visited?.planned.worked === undefined ? undefined : new Visit(document, visited.planned, today);
  if (visit === undefined || visited === undefined) {
    for (const { id } of READINGS_CHECKS) outcome.notRun(id, ['installation']);
    return;
  }
  for (const each of CHECKS) runOne(each, visit, outcome);
  judgeAsLeft(visit, visited, outcome);
}

/** A check that throws is noted, and the others go on. */
function runOne({ check, judge, lacks }: VisitCheck, visit: Visit, outcome: Outcome): void {
  outcome.attempt(`the check '${check.id}'`, () => {
    for (const finding of judge(visit)) outcome.report(rawFinding(check, visit, finding));
    const missing = lacks?.(visit) ?? [];
    if (missing.length > 0) outcome.notRun(check.id, missing);
    else outcome.passed(check.id, undefined);
  });
}

function rawFinding(check: Check, visit: Visit, finding: VisitFinding): RawFinding {
  const { at, message, severity = check.severity, value, limit, planned, fixes = [] } = finding;
  const related: readonly RelatedPlace[] =
    planned === undefined
      ? []
      : [{ place: placeOfKey(visit.planned.document, planned), message: 'the installation as planned' }];
  return { check: check.id, severity, message, place: placeOfKey(visit.document, at), value, limit, related, fixes };
}

/** Every check of an installation runs on the settings as they were left; what it finds anew is said at the setting. */
function judgeAsLeft(visit: Visit, { planned, recheck }: Visited, outcome: Outcome): void {
  const settings = settingsLeft(visit);
  if (settings.every(({ isSame }) => isSame)) return;
  const left = recheck(readDocument(planned.document.path, overlaid(planned.document, overlayOf(visit))));
  const known = new Set(planned.findings.map(identity));
  for (const finding of left.findings) {
    if (finding.deviated || known.has(identity(finding)) || isOfWriting(finding)) continue;
    outcome.report({
      check: finding.check,
      severity: finding.severity,
      message: `As left: ${finding.message}`,
      place: placeOfKey(visit.document, asLeftPlace(visit, settings, finding.key)),
      case: finding.case,
      value: finding.value,
      limit: finding.limit,
      related: finding.related.map((each) => relatedIn(visit, settings, each)),
    });
  }
}

function identity({ check, key, case: inCase, message }: Finding): string {
  return [check, key, inCase, message].join('\n');
}

/** How the settings are written is said of the readings themselves; deviations are judged in the installation. */
function isOfWriting({ check }: Finding): boolean {
  return /^(document|deviation|policy|units)\./.test(check);
}

/** Where a key of the installation stands in the readings: at its setting, or at the settings as a whole. */
function asLeftPlace(visit: Visit, settings: readonly SettingLeft[], key: string): string {
  const setting = settings.find((each) => each.key === key);
  if (setting !== undefined) return setting.at;
  if (key.startsWith('setpoints.')) return key.replace(/^setpoints/, 'as_left');
  return visit.document.tree.find('as_left') === NONE ? 'readings' : 'as_left';
}

function relatedIn(visit: Visit, settings: readonly SettingLeft[], each: Related): RelatedPlace {
  const { planned, document } = visit;
  if (each.path !== planned.document.path) return { elsewhere: each, message: each.message };
  const setting = settings.find(({ key }) => key === each.key);
  const place = setting === undefined ? placeOfKey(planned.document, each.key) : placeOfKey(document, setting.at);
  return { place, message: each.message };
}
