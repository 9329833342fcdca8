import type { CheckedFile, Finding } from '../../engine/index.ts';
import { atLeast } from '../../engine/index.ts';
import { type Accepted, isOpen, type NotRun, type Report, type Run, type Settled } from '../report.ts';
import { counted } from '../text/lines.ts';
import { escapeMarkdown } from './escape.ts';

/** Review services take comments of 65 536 characters; this leaves room for what others add. */
const MOST_CHARACTERS = 60_000;
/** Room for the heading and what is told at the end. */
const RESERVED = 12_000;
const MOST_OF_A_FILE = 25;
const MOST_CHECKS = 15;
const MOST_SETTLED = 20;
const MOST_TROUBLES = 10;
const LONGEST = 400;

/** A summary that fits into a comment: errors and warnings by file, then what was not run and what is settled. */
export function markdownReport(nameOf: (path: string) => string): Report {
  let body = '';
  let omitted = 0;
  return {
    begin: () => '',
    file: (file, accepted) => section(file, accepted, nameOf),
    next: (piece) => {
      if (piece === '') return '';
      if (omitted > 0 || body.length + piece.length > MOST_CHARACTERS - RESERVED) omitted++;
      else body += piece;
      // The counts come first, so that nothing is written before all is known.
      return '';
    },
    end: (run) => `${[...headLines(run), '', body + omittedText(omitted), ...tail(run)].join('\n').trimEnd()}\n`,
  };
}

function section(file: CheckedFile, accepted: Accepted, nameOf: (path: string) => string): string {
  const told = file.findings.filter((each) => isOpen(each, accepted) && atLeast(each.severity, 'warning'));
  if (told.length === 0) return '';
  const lines = told.slice(0, MOST_OF_A_FILE).map(findingLine);
  const rest = told.length - lines.length;
  if (rest > 0) lines.push(`- and ${rest} more in this file`);
  return `### ${escapeMarkdown(nameOf(file.document.path))}\n\n${lines.join('\n')}\n\n`;
}

function findingLine({ severity, key, case: inCase, message, fixes, check, range }: Finding): string {
  const where = escapeMarkdown(key === '' ? 'the whole document' : key);
  const when = inCase === undefined ? '' : `, case '${escapeMarkdown(inCase)}'`;
  const wayOut = fixes.length === 0 ? '' : ` Way out: ${short(fixes.map(({ title }) => title).join('; or: '))}.`;
  return `- **${severity}** ${where}, line ${range.start.line + 1}${when}: ${short(message)}${wayOut} (${escapeMarkdown(check)})`;
}

/** A text of a document that is not let fill the comment. */
function short(text: string): string {
  return escapeMarkdown(text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text);
}

function headLines({ summary, troubles }: Run): readonly string[] {
  const { files, errors, warnings, notes, deviated, accepted, notRun, setAside } = summary;
  const counts = [counted(errors, 'error'), counted(warnings, 'warning'), counted(notes, 'note')].join(', ');
  return [
    `## Setproof: ${counts} in ${counted(files, 'file')}`,
    '',
    `${deviated} accepted by deviations, ${accepted} accepted for now; ${counted(notRun, 'check')} not run, ${setAside} set aside.`,
    ...listOf('Not checked:', troubles.map(short), MOST_TROUBLES),
  ];
}

function omittedText(files: number): string {
  return files === 0 ? '' : `Findings in ${counted(files, 'more file')} do not fit here; the full report has them.\n\n`;
}

function tail({ notRun, settled }: Run): readonly string[] {
  const most = [...notRun].sort(([, a], [, b]) => b.files - a.files);
  return [
    ...listOf('Checks not run, those of most files first:', most.map(notRunLine), MOST_CHECKS),
    ...listOf('Settled; take these out of the list of accepted findings:', settled.map(settledLine), MOST_SETTLED),
  ];
}

function notRunLine([check, { files, path, missing }]: [string, NotRun]): string {
  return `${escapeMarkdown(check)} in ${counted(files, 'file')}; ${escapeMarkdown(path)} lacks ${short(missing.join(', '))}`;
}

function settledLine({ check, key, file, case: inCase }: Settled): string {
  const when = inCase === undefined ? '' : `, case '${inCase}'`;
  return short(`${check} at ${key}${when} in ${file}`);
}

function listOf(title: string, lines: readonly string[], most: number): readonly string[] {
  if (lines.length === 0) return [];
  const rest = lines.length - most;
  const shown = lines.slice(0, most).map((line) => `- ${line}`);
  return ['', title, '', ...shown, ...(rest > 0 ? [`- and ${rest} more`] : [])];
}
