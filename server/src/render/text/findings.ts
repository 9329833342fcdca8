import type { CheckedFile, CheckStatus, Finding, Measure, Related } from '../../engine/index.ts';
import { capitalise, formatNumber } from '../../engine/index.ts';
import { visible } from '../escape.ts';
import type { Paint } from '../paint.ts';
import { type Accepted, NOTHING, type Report, type Run, type Summary, withFile } from '../report.ts';
import { counted, wrap } from './lines.ts';

export type Shown = 'passed' | 'not-run';

export interface FindingsOptions {
  /** A path as the reader knows it. */
  readonly nameOf: (path: string) => string;
  readonly paint: Paint;
  /** Characters on a line. */
  readonly width: number;
  /** Statuses that are listed besides the findings. */
  readonly show: ReadonlySet<Shown>;
}

const MOST_RELATED = 4;
const INDENT = '  ';

/** Findings for a reader at a terminal: a block each, grouped by file, with the counts at the end. */
export function findingsReport(options: FindingsOptions): Report {
  return {
    begin: () => '',
    file: (file, accepted) => fileBlock(file, accepted, options),
    next: (piece) => piece,
    end: (run) => `${[...settledLines(run), ...summaryLines(run.summary)].map(visible).join('\n')}\n`,
  };
}

function fileBlock(file: CheckedFile, accepted: Accepted, options: FindingsOptions): string {
  const blocks = [
    ...file.findings.map((finding) => findingLines(finding, accepted, options)),
    ...statusLines(file.statuses, options),
  ];
  if (blocks.length === 0) return '';
  const name = visible(options.nameOf(file.document.path));
  const heading = `${options.paint.strong(name)}: ${severities(withFile(NOTHING, file, accepted))}`;
  return `${[[heading], ...blocks].map((lines) => lines.join('\n')).join('\n\n')}\n\n`;
}

/** The key first, then the value against its limit, the message, the way out, and the place last. */
function findingLines(finding: Finding, accepted: Accepted, options: FindingsOptions): readonly string[] {
  const { paint, width } = options;
  const body = [measures(finding), finding.message, wayOut(finding), relatedText(finding.related, options)];
  const place = `${finding.check}, ${placeText(finding.path, finding.range.start, options)}`;
  return [
    `${INDENT}${paint.strong(visible(finding.key) || 'the whole document')}  ${word(finding, accepted, paint)}`,
    ...body.filter((text) => text !== '').flatMap((text) => wrap(visible(text), width, INDENT + INDENT)),
    `${INDENT}${INDENT}${paint.faint(visible(place))}`,
  ];
}

function word(finding: Finding, accepted: Accepted, paint: Paint): string {
  const { severity, deviated } = finding;
  if (deviated) return paint.faint(`${severity}, accepted by a deviation`);
  return accepted.has(finding) ? paint.faint(`${severity}, accepted for now`) : paint[severity](severity);
}

function measures({ value, limit, case: name, message }: Finding): string {
  const inCase = name === undefined ? '' : `in the case '${name}'`;
  if (value === undefined || limit === undefined) return message.includes(inCase) ? '' : capitalise(inCase);
  return [`${measureText(value)} against a limit of ${measureText(limit)}`, inCase].filter(Boolean).join(', ');
}

function measureText({ number, unit }: Measure): string {
  return `${formatNumber(number)} ${unit}`.trim();
}

function wayOut({ fixes }: Finding): string {
  return fixes.length === 0 ? '' : `Way out: ${fixes.map(({ title }) => title).join('; or: ')}.`;
}

function relatedText(related: readonly Related[], options: FindingsOptions): string {
  if (related.length === 0) return '';
  const shown = related.slice(0, MOST_RELATED);
  const rest = related.length - shown.length;
  const texts = shown.map(({ message, path, range }) => `${message} (${placeText(path, range.start, options)})`);
  return `Related: ${texts.join('; ')}${rest === 0 ? '' : `; and ${rest} more`}.`;
}

function placeText(
  path: string,
  { line, character }: Finding['range']['start'],
  { nameOf }: Pick<FindingsOptions, 'nameOf'>,
): string {
  return `${nameOf(path)}:${line + 1}:${character + 1}`;
}

function statusLines(
  statuses: ReadonlyMap<string, CheckStatus>,
  { show, width }: FindingsOptions,
): readonly (readonly string[])[] {
  const listed = [...statuses].flatMap(([check, status]) => {
    const text = statusText(check, status, show);
    return text === undefined ? [] : wrap(visible(text), width, INDENT + INDENT, INDENT);
  });
  return listed.length === 0 ? [] : [listed];
}

function statusText(check: string, status: CheckStatus, show: ReadonlySet<Shown>): string | undefined {
  if (status.status === 'not_run' && show.has('not-run')) return `${check} not run: lacks ${status.missing.join(', ')}`;
  if (status.status !== 'passed' || !show.has('passed')) return undefined;
  return status.margin === undefined ? `${check} passed` : `${check} passed, ${measureText(status.margin)} inside`;
}

function severities({ errors, warnings, notes, deviated, accepted }: Summary): string {
  const words = [
    counted(errors, 'error'),
    counted(warnings, 'warning'),
    counted(notes, 'note'),
    ...(deviated === 0 ? [] : [`${deviated} accepted by a deviation`]),
    ...(accepted === 0 ? [] : [`${accepted} accepted for now`]),
  ];
  return words.join(', ');
}

/** What can be taken out of the list of accepted findings. */
function settledLines({ settled }: Run): readonly string[] {
  if (settled.length === 0) return [];
  const entries = settled.map((each) => {
    const inCase = each.case === undefined ? '' : `, case '${each.case}'`;
    return `${INDENT}${each.check} at '${each.key}'${inCase} in ${each.file}`;
  });
  return ['Settled; take these out of the list of accepted findings:', ...entries, ''];
}

function summaryLines(summary: Summary): readonly string[] {
  const { files, notRun, setAside, ignored } = summary;
  const lines = [`${counted(files, 'file')} checked: ${severities(summary)}.`];
  const list = notRun > 0 ? " (listed by '--show not-run')" : '';
  lines.push(`${counted(notRun, 'check')} not run${list}, ${setAside} set aside.`);
  if (ignored > 0) lines.push(`${counted(ignored, 'file')} left alone: no document of ours.`);
  return lines;
}
