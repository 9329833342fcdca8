import type { ListedDeviation } from '../../engine/index.ts';
import { jsonText, visible } from '../escape.ts';
import { textTable } from '../markdown/table.ts';
import type { Paint } from '../paint.ts';
import { counted, wrap } from '../text/lines.ts';

/** The deviations of a fleet, and how its files are named here. */
export interface DeviationReport {
  readonly deviations: readonly ListedDeviation[];
  /** Installations that were looked at. */
  readonly installations: number;
  readonly today: string;
  readonly nameOf: (path: string) => string;
}

const ANY = 'any';

/** `3 deviations in 10 installations on 2026-03-14: 2 in force, 1 expired.` */
function summary({ deviations, installations, today }: DeviationReport): string {
  const states = [...new Set(deviations.map(({ state }) => state))];
  const counts = states.map((state) => `${deviations.filter((each) => each.state === state).length} ${state}`);
  const detail = counts.length === 0 ? '' : `: ${counts.join(', ')}`;
  return `${counted(deviations.length, 'deviation')} in ${counted(installations, 'installation')} on ${today}${detail}.`;
}

/** For a terminal: the deviations of each installation below its name. */
export function deviationsText(
  report: DeviationReport,
  { paint, width }: { readonly paint: Paint; readonly width: number },
): string {
  const lines: string[] = [];
  let path = '';
  for (const each of report.deviations) {
    if (each.path !== path) lines.push(paint.strong(visible(`${each.well} (${report.nameOf(each.path)})`)));
    path = each.path;
    for (const line of linesOf(each)) lines.push(...wrap(visible(line), width, '    ', '  '));
    lines.push('');
  }
  return `${[...lines, summary(report)].join('\n')}\n`;
}

function linesOf({ check, at, case: name, upTo, reason, approvedBy, until, state }: ListedDeviation) {
  const where = [at === '' ? '' : ` at ${at}`, name === '' ? '' : ` in the case '${name}'`].join('');
  return [
    `${check}${where}: ${state}`,
    `accepted up to ${upTo === '' ? ANY : upTo}, until ${until === '' ? 'no day' : until}`,
    `approved by ${approvedBy === '' ? 'nobody' : approvedBy}: ${reason === '' ? 'no reason given' : reason}`,
  ];
}

const COLUMNS = ['Well', 'File', 'Check', 'Entry', 'Case', 'Accepted up to', 'Reason', 'Approved by', 'Until', 'State'];

/** A table, a deviation a row. */
export function deviationsMarkdown(report: DeviationReport): string {
  const rows = report.deviations.map((each) => [
    each.well,
    report.nameOf(each.path),
    each.check,
    each.at || ANY,
    each.case || ANY,
    each.upTo || ANY,
    each.reason,
    each.approvedBy,
    each.until,
    each.state,
  ]);
  return ['# Deviations', '', summary(report), '', ...(rows.length === 0 ? [] : [textTable(COLUMNS, rows), ''])].join(
    '\n',
  );
}

/** For machines: a list of objects, as `deviationsOf` gives them, with paths as the reader knows them. */
export function deviationsJson({ deviations, installations, today, nameOf }: DeviationReport): string {
  const list = deviations.map(({ path, ...each }) => ({ path: nameOf(path), ...each }));
  return `${jsonText({ setproof: 1, today, installations, deviations: list }, 2)}\n`;
}
