import type { CheckedFile } from '../check-document.ts';
import { CATALOGUE } from '../checks/catalogue.ts';
import type { CheckStatus, Finding, Severity } from '../findings/finding.ts';
import { labelOf } from './entries.ts';

/** A check that ended differently. */
export interface StatusChange {
  readonly check: string;
  readonly title: string;
  readonly before: CheckStatus['status'];
  readonly after: CheckStatus['status'];
  /** Of one that is not run now, or was not before: the entries that are, or were, missing. */
  readonly missing: readonly string[];
  /** Of one that is accepted or set aside now: why. */
  readonly reason: string | undefined;
}

/** A finding that is on one side only, or says something else on the other. */
export interface FindingChange {
  readonly change: 'new' | 'gone' | 'changed';
  readonly check: string;
  readonly key: string;
  readonly label: string;
  readonly before: FindingSide | undefined;
  readonly after: FindingSide | undefined;
}

export interface FindingSide {
  readonly severity: Severity;
  readonly message: string;
  readonly case: string | undefined;
  readonly deviated: boolean;
  /** Line in the document, from 1. */
  readonly line: number;
}

const TITLES: ReadonlyMap<string, string> = new Map(CATALOGUE.map(({ id, title }) => [id, title]));
/** The note that counts what was not run: the statuses say that one by one. */
const COUNTING = 'document.not-run';

export function titleOfCheck(check: string): string {
  return TITLES.get(check) ?? check;
}

/** The checks that ended differently, in the order of the catalogue. */
export function compareStatuses(before: CheckedFile, after: CheckedFile): readonly StatusChange[] {
  return [...after.statuses].flatMap(([check, now]) => {
    const old = before.statuses.get(check);
    if (old === undefined || check === COUNTING || isSameStatus(old, now)) return [];
    const missing = now.status === 'not_run' ? now.missing : old.status === 'not_run' ? old.missing : [];
    const reason = 'reason' in now ? now.reason : undefined;
    return [{ check, title: titleOfCheck(check), before: old.status, after: now.status, missing, reason }];
  });
}

/** One that was not run is still not run for another reason. */
function isSameStatus(before: CheckStatus, after: CheckStatus): boolean {
  if (before.status !== after.status) return false;
  if (before.status !== 'not_run' || after.status !== 'not_run') return true;
  return [...before.missing].sort().join() === [...after.missing].sort().join();
}

/** The findings that came, changed and went, the gravest first. */
export function compareFindings(before: CheckedFile, after: CheckedFile): readonly FindingChange[] {
  const old = queuesOf(before);
  const changes = after.findings.flatMap((now) => {
    const found = now.check === COUNTING ? undefined : old.get(identityOf(after, now))?.shift();
    if (now.check === COUNTING || (found !== undefined && isSameFinding(found, now))) return [];
    return [changeOf(found === undefined ? 'new' : 'changed', after, now, found, now)];
  });
  const gone = [...old.values()].flat().map((each) => changeOf('gone', before, each, each, undefined));
  return [...changes, ...gone].sort((a, b) => weightOf(a) - weightOf(b));
}

/** All findings of a file that is new, the gravest first. */
export function allFindings(file: CheckedFile): readonly FindingChange[] {
  const own = file.findings.filter(({ check }) => check !== COUNTING);
  const changes = own.map((each) => changeOf('new', file, each, undefined, each));
  return changes.sort((a, b) => weightOf(a) - weightOf(b));
}

/** A finding is found again by its check and its entry, whatever place and case it has. */
function identityOf({ document }: CheckedFile, { check, key }: Finding): string {
  return `${check} ${labelOf(document, key)}`;
}

function queuesOf(file: CheckedFile): ReadonlyMap<string, Finding[]> {
  const queues = new Map<string, Finding[]>();
  for (const finding of file.findings) {
    if (finding.check === COUNTING) continue;
    const identity = identityOf(file, finding);
    queues.set(identity, [...(queues.get(identity) ?? []), finding]);
  }
  return queues;
}

function isSameFinding(before: Finding, after: Finding): boolean {
  const isAlike = before.severity === after.severity && before.deviated === after.deviated;
  return isAlike && before.message === after.message && before.case === after.case;
}

function changeOf(
  change: FindingChange['change'],
  file: CheckedFile,
  { check, key }: Finding,
  before: Finding | undefined,
  after: Finding | undefined,
): FindingChange {
  const label = labelOf(file.document, key);
  return { change, check, key, label, before: before && sideOf(before), after: after && sideOf(after) };
}

function sideOf({ severity, message, case: name, deviated, range }: Finding): FindingSide {
  return { severity, message, case: name, deviated, line: range.start.line + 1 };
}

const CHANGES = ['new', 'changed', 'gone'];
const SEVERITIES = ['error', 'warning', 'note'];

function weightOf({ change, before, after }: FindingChange): number {
  return CHANGES.indexOf(change) * SEVERITIES.length + SEVERITIES.indexOf((after ?? before)?.severity ?? 'note');
}
