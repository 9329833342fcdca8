import type { CheckedFile } from '../../engine/index.ts';
import { escapeMarkdown as md } from '../markdown/escape.ts';
import { textTable } from '../markdown/table.ts';
import type { Picture } from '../svg/picture.ts';
import { DEFERS } from '../text/lines.ts';
import { type CaseSheet, type WorkedSheet, type Worksheet, worksheetOf } from './model.ts';
import type { ValueRow, ValueSheet } from './values.ts';
import type { WindowSheet } from './windows.ts';
import {
  boundReason,
  countsText,
  findingPlace,
  HOW_TO_READ,
  headingRows,
  inputName,
  inputOrigin,
  notConcernedText,
  type Reader,
  readerOf,
  severityText,
  windowText,
} from './words.ts';

export interface WorksheetMarkdownOptions {
  /** Day of the check, `2026-03-14`. */
  readonly today: string;
  readonly nameOf: (path: string) => string;
}

/** The worksheet as Markdown, for a pull request or a wiki: the same numbers as on paper, without the pictures. */
export function renderWorksheetMarkdown(file: CheckedFile, { today, nameOf }: WorksheetMarkdownOptions): string {
  const sheet = worksheetOf(file, today);
  const reader = readerOf(sheet.heading, nameOf);
  const parts = [
    `# Worksheet ${md(sheet.heading.well)}`,
    textTable(['', ''], headingRows(sheet.heading, reader)),
    `*${md(DEFERS)}*`,
    ...limitsOf(sheet),
    ...summaryOf(sheet, reader),
    ...(sheet.worked === undefined ? ['The values could not be worked out.'] : workedOf(sheet.worked, reader)),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function limitsOf({ limits }: Worksheet): readonly string[] {
  if (limits.length === 0) return ['The policy changes no limit: the defaults hold.'];
  const rows = limits.map(({ name, title, shown, usual }) => [`${title} (${name})`, shown, usual]);
  return ['## Limits changed by policy', textTable(['Limit', 'In force', 'Default'], rows)];
}

function summaryOf({ summary, findings, notRun }: Worksheet, reader: Reader): readonly string[] {
  const found = findings.map(
    (each) => `- **${md(severityText(each))}** ${md(each.message)} (${md(findingPlace(each, reader))})`,
  );
  const rows = notRun.map(({ check, title, missing }) => [`${title} (${check})`, missing.join(', ')]);
  return [
    '## Findings',
    md(countsText(summary)),
    found.join('\n'),
    '## Not looked at',
    rows.length === 0 ? 'Every check that concerns this file was run.' : textTable(['Check', 'Lacks'], rows),
  ];
}

function workedOf({ file, pictures, cases, windows, otherWindows }: WorkedSheet, reader: Reader): readonly string[] {
  return [
    '## Windows of the setpoints',
    ...windows.flatMap(windowOf),
    otherWindows.length === 0 ? '' : `No such setpoint, so no window: ${md(otherWindows.join(', '))}.`,
    ...pictures.map(lackOf),
    '## Values of the file',
    md(HOW_TO_READ),
    ...valuesOf(file, reader),
    ...cases.flatMap((each) => caseOf(each, reader)),
  ];
}

/** The pictures need paper or a screen; here only what keeps one from being drawn is worth a line. */
function lackOf(picture: Picture): string {
  return 'lacking' in picture ? md(picture.lacking) : '';
}

function caseOf({ name, entries, values, pictures }: CaseSheet, reader: Reader): readonly string[] {
  return [`## Case: ${md(name)}`, md(entries), ...pictures.map(lackOf), ...valuesOf(values, reader)];
}

function valuesOf(sheet: ValueSheet, reader: Reader): readonly string[] {
  const missing = sheet.unavailable.map(({ id, title, reason }) => [`${title} (${id})`, reason]);
  return [
    textTable(
      ['Value', 'Result', 'How', 'Source'],
      sheet.rows.map((row) => valueCells(row, reader)),
    ),
    ...(missing.length === 0 ? [] : ['### Not available', textTable(['Value', 'Why'], missing)]),
    sheet.notConcerned.length === 0 ? '' : md(notConcernedText(sheet)),
  ];
}

function valueCells(row: ValueRow, reader: Reader): readonly string[] {
  const inputs = row.inputs.map((input) => `${inputName(input)} = ${input.shown} (${inputOrigin(input, reader)})`);
  const assumed = row.assumes === undefined ? [] : [`assumed: ${row.assumes}`];
  return [
    `${row.title} (${row.id})`,
    row.decidedBy === undefined ? row.shown : `${row.shown}, ${row.decidedBy}`,
    [row.formula, ...inputs, ...assumed].join('; '),
    row.source,
  ];
}

function windowOf(window: WindowSheet): readonly string[] {
  const rows = window.bounds.map((each) => [
    `${each.side}, ${each.weight} (${each.id})`,
    each.shown ?? `not known, lacks ${each.missing.join(', ')}`,
    each.margin ?? '',
    each.case ?? '',
    boundReason(each),
  ]);
  return [
    `### Window of ${md(window.title)}`,
    md(`${window.setpoint}: ${windowText(window)}`),
    textTable(['Bound', 'Number', 'Margin', 'Case', 'Reason and source'], rows),
  ];
}
