import {
  atLeast,
  type Comparison,
  type Difference,
  type FindingChange,
  formatNumber,
  type Severity,
  type StatusChange,
  type WindowChange,
} from '../../engine/index.ts';
import { counted } from '../text/lines.ts';
import { type CompareReport, pathOf } from './report.ts';

const SEVERITIES: readonly Severity[] = ['error', 'warning', 'note'];

/** What became of one document, in a line that stands alone. */
export function summaryOf(comparison: Comparison, report: CompareReport): string {
  const name = report.nameOf(pathOf(comparison));
  return `${name}: ${partsOf(comparison, report)
    .filter((part) => part !== '')
    .join('; ')}`;
}

function partsOf(comparison: Comparison, report: CompareReport): readonly string[] {
  const { change, kind, name } = comparison;
  if (kind !== 'installation') return [...sheetParts(comparison), usersPart(comparison, report)];
  if (change === 'added') return [`new well ${name}`.trim(), countsPart(comparison), copyPart(comparison, report)];
  if (change === 'removed') return [`removed, well ${name}`];
  return [
    entriesPart(comparison),
    behindPart(comparison, report),
    findingsPart(comparison),
    marginsPart(comparison),
    notRunPart(comparison),
    deviationsPart(comparison),
  ];
}

function sheetParts({ change, kind, name, entries, findings }: Comparison): readonly string[] {
  const what = [kind, name].filter((part) => part !== undefined && part !== '').join(' ') || 'document';
  if (change === 'added') return [`new ${what}`];
  if (change === 'removed') return [`removed, ${what}`];
  const changed = entries.length === 0 ? 'the same in other words' : `${counted(entries.length, 'entry')} changed`;
  return [`${what}, ${plural(changed)}`, foundText(findings)];
}

/** `counted` adds an s, and an entry is none of those words. */
function plural(text: string): string {
  return text.replace(/\bentrys\b/g, 'entries');
}

export function entryCount(number: number): string {
  return plural(counted(number, 'entry'));
}

function usersPart(comparison: Comparison, { fleet }: CompareReport): string {
  const users = fleet.users.get(pathOf(comparison));
  if (users === undefined) return '';
  const affected = users.filter(({ isAffected }) => isAffected).length;
  const verb = comparison.kind === 'policy' ? 'governs' : 'used by';
  return users.length === 0
    ? `${verb} no installation`
    : `${verb} ${counted(users.length, 'installation')}, ${affected} affected`;
}

function countsPart({ after }: Comparison): string {
  if (after === undefined) return '';
  const { errors, warnings, notes, notRun } = after.counts;
  const found = [counted(errors, 'error'), counted(warnings, 'warning'), counted(notes, 'note')].join(', ');
  return `${found}; ${counted(notRun, 'check')} not run`;
}

function copyPart({ copyOf }: Comparison, { nameOf }: CompareReport): string {
  if (copyOf === undefined) return '';
  const { path, equal, total } = copyOf;
  return `much like ${nameOf(path)}: ${equal} of ${total} entries equal`;
}

function entriesPart({ entries, rewritten, sheets, policy }: Comparison): string {
  const setpoints = entries.filter(({ section }) => section === 'setpoints').length;
  if (entries.length > 0) {
    const share =
      setpoints === 0 ? 'no setpoint' : `${setpoints} of them ${setpoints === 1 ? 'a setpoint' : 'setpoints'}`;
    return `${entryCount(entries.length)} changed, ${share}`;
  }
  if (rewritten.length > 0) return `${entryCount(rewritten.length)} written differently, none changed`;
  return sheets.length > 0 || policy !== undefined ? 'no entry of its own changed' : 'no entry changed';
}

/** What changed behind a file. */
function behindPart({ change, sheets, policy }: Comparison, { nameOf }: CompareReport): string {
  const changed = sheets
    .filter(({ before, after }) => before.path === after.path)
    .map(({ after }) => nameOf(after.path));
  const parts = [...new Set(changed), ...(policy === undefined ? [] : ['the policy'])];
  if (parts.length > 0) return `through ${parts.join(', ')}`;
  return change === 'affected' ? 'through other documents' : '';
}

function findingsPart({ findings }: Comparison): string {
  return foundText(findings);
}

/** `1 new error, 2 warnings gone`. */
function foundText(findings: readonly FindingChange[]): string {
  const parts = SEVERITIES.flatMap((severity) => [
    countText(findings, 'new', severity, (number) => `${number} new ${severity}${number === 1 ? '' : 's'}`),
    countText(findings, 'gone', severity, (number) => `${counted(number, severity)} gone`),
  ]);
  return parts.filter((part) => part !== '').join(', ');
}

function countText(
  findings: readonly FindingChange[],
  change: FindingChange['change'],
  severity: Severity,
  words: (number: number) => string,
): string {
  const own = findings.filter((each) => each.change === change && (each.after ?? each.before)?.severity === severity);
  const number = own.filter((each) => (each.after ?? each.before)?.deviated === false).length;
  return number === 0 ? '' : words(number);
}

const MOST_MARGINS = 2;

function marginsPart({ windows }: Comparison): string {
  return tellingWindows(windows)
    .slice(0, MOST_MARGINS)
    .map((window) => {
      const [before, after] = [window.before?.margin?.text, window.after?.margin?.text];
      return `${nounOf(window)} margin ${before} to ${after}`;
    })
    .join(', ');
}

/** A title without its article. */
export function nounOf({ title }: Pick<WindowChange, 'title'>): string {
  return title.replace(/^the /, '');
}

/** A margin is worth a word in the summary from this share of change on. */
const TELLING = 0.05;

/** The windows whose nearest margin changed, those that were left first, then those that lost most of it. */
function tellingWindows(windows: readonly WindowChange[]): readonly WindowChange[] {
  const telling = windows.filter((each) => Math.abs(lossOf(each)) >= TELLING || hasCrossed(each));
  return [...telling].sort((a, b) => Number(hasCrossed(b)) - Number(hasCrossed(a)) || lossOf(b) - lossOf(a));
}

function hasCrossed({ before, after }: WindowChange): boolean {
  const [from, to] = [before?.margin?.number, after?.margin?.number];
  return from !== undefined && to !== undefined && from < 0 !== to < 0;
}

/** The part of a margin that is lost; below zero where it grew. */
function lossOf({ before, after, difference }: WindowChange): number {
  const [from, to] = [before?.margin?.number, after?.margin?.number];
  if (from === undefined || to === undefined || difference === undefined) return 0;
  return (from - to) / Math.max(Math.abs(from), Math.abs(to));
}

function notRunPart({ statuses }: Comparison): string {
  const lost = statuses.filter(isLost).length;
  const won = statuses.filter(
    ({ before, after }) => before === 'not_run' && (after === 'passed' || after === 'finding'),
  ).length;
  const parts = [
    lost === 0 ? '' : `${counted(lost, 'check')} no longer run`,
    won === 0 ? '' : `${counted(won, 'check')} now run`,
  ];
  return parts.filter((part) => part !== '').join(', ');
}

/** A check that looked at something before and does not now. */
export function isLost({ before, after }: StatusChange): boolean {
  return after === 'not_run' && before !== 'not_run';
}

function deviationsPart({ deviations }: Comparison): string {
  return deviations.length === 0 ? '' : `${counted(deviations.length, 'deviation')} changed or expired`;
}

/** `-100 V, -11.1 %`. */
export function differenceText(difference: Difference | undefined): string {
  if (difference === undefined) return '';
  const { text, percent } = difference;
  if (percent === undefined) return text;
  const shown = formatNumber(Math.abs(percent), { significant: 2 });
  return `${text}, ${percent < 0 ? '-' : '+'}${shown} %`;
}

/** How a check ended, in words. */
export const STATUS_WORDS: Readonly<Record<StatusChange['after'], string>> = {
  passed: 'passed',
  finding: 'found',
  deviated: 'accepted by a deviation',
  not_run: 'not run',
  not_applicable: 'does not concern it',
  set_aside: 'set aside by the policy',
};

/** The whole comparison in a line. */
export function totalsOf({ fleet }: CompareReport): string {
  const { documents, total } = fleet;
  if (documents.length === 0) return `Nothing that is compared differs in ${counted(total, 'document')}.`;
  const findings = documents.flatMap((each) => each.findings);
  const worst = findings.filter(
    ({ change, after }) =>
      change === 'new' && after !== undefined && !after.deviated && atLeast(after.severity, 'warning'),
  );
  const wells = documents.filter(({ kind }) => kind === 'installation');
  const parts = [
    `${counted(wells.length, 'well')} and ${counted(documents.length - wells.length, 'other document')} of ${total} differ`,
    worst.length === 0 ? 'no new error or warning' : foundText(worst),
  ];
  return `${parts.join('; ')}.`;
}
