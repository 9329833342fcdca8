import type { CheckedFile, Finding } from '../../engine/index.ts';
import { html, type Markup, trusted } from '../html/escape.ts';
import { renderPage } from '../html/page.ts';
import type { Paper } from '../html/print-css.ts';
import { NARROW } from '../svg/drawing.ts';
import type { Picture } from '../svg/picture.ts';
import { DEFERS } from '../text/lines.ts';
import { type CaseSheet, type WorkedSheet, type Worksheet, worksheetOf } from './model.ts';
import type { InputRow, UnavailableRow, ValueRow, ValueSheet } from './values.ts';
import type { BoundRow, WindowSheet } from './windows.ts';
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

export interface WorksheetHtmlOptions {
  readonly paper: Paper;
  /** Day of the check, `2026-03-14`. */
  readonly today: string;
  /** A path as the reader knows it. */
  readonly nameOf: (path: string) => string;
}

/** An entry that a part of the worksheet is about; its place where that is known. */
export interface LinkedEntry {
  readonly key: string;
  readonly place?: { readonly path: string; readonly line: number } | undefined;
}

/** How a page tells of entries, and how it leads to them. */
interface PageReader extends Reader {
  readonly link: (text: string, entry: LinkedEntry) => Markup;
}

const CSS = `h2 { margin-top: 7mm; }
dl.heading { display: grid; grid-template-columns: max-content 1fr; gap: 0 6mm; }
dl.heading dt { font-weight: 700; }
dl.heading dd { margin: 0; }
figure { margin: 0 0 3mm; break-inside: avoid; }
figcaption { font-weight: 700; }
svg { display: block; width: 16cm; max-width: 100%; height: auto; margin-bottom: 2mm; break-inside: avoid; }
th, td { border-width: 0 0 0.5pt; padding: 0.9mm 3mm 0.9mm 0; }
thead th, strong { white-space: nowrap; }
td { overflow-wrap: break-word; }
code { overflow-wrap: anywhere; }
table { margin-bottom: 3mm; }
table.values, table.bounds { font-size: 8pt; line-height: 1.3; }
table.values td:first-child { width: 25%; }
table.values td:nth-child(2) { width: 14%; }
table.values strong { font-size: 10pt; }
table.bounds td:first-child { width: 24%; }
table.lacking td:first-child { width: 45%; }
.how { margin: 0; }
.assumed, .beyond { font-style: italic; font-weight: 700; }
@media print { section.case { break-before: page; } }`;

/**
 * The worksheet as one HTML file, printable in black and white: how each number of a file came about, what was found and
 * not looked at, and the pictures.
 */
export function renderWorksheetHtml(file: CheckedFile, { paper, today, nameOf }: WorksheetHtmlOptions): string {
  const sheet = worksheetOf(file, today);
  const { well, revision, fingerprint } = sheet.heading;
  const title = `Worksheet ${well}`;
  const foot = [`${title}, revision ${revision}`, fingerprint, DEFERS];
  return renderPage({
    title,
    frame: { paper, foot, band: undefined },
    css: CSS,
    body: bodyOf(sheet, title, { ...readerOf(sheet.heading, nameOf), link: (text) => html`${text}` }),
  });
}

export interface LinkedWorksheet extends Omit<WorksheetHtmlOptions, 'paper'> {
  /** A text that leads to an entry. */
  readonly link: PageReader['link'];
}

/**
 * The same worksheet as part of a panel, which is narrower than paper and can lead from each number to the entry behind
 * it.
 */
export function worksheetMarkup(file: CheckedFile, { today, nameOf, link }: LinkedWorksheet): Markup {
  const sheet = worksheetOf(file, today, NARROW);
  return bodyOf(sheet, `Worksheet ${sheet.heading.well}`, { ...readerOf(sheet.heading, nameOf), link });
}

function bodyOf(sheet: Worksheet, title: string, reader: PageReader): Markup {
  return html`<main>
<h1>${title}</h1>
<dl class="heading">${headingRows(sheet.heading, reader).map(([name, text]) => html`<dt>${name}</dt><dd>${text}</dd>`)}</dl>
<p><em>${DEFERS}</em></p>
${limitsOf(sheet)}
${summaryOf(sheet, reader)}
${sheet.worked === undefined ? html`<p>The values could not be worked out.</p>` : workedOf(sheet.worked, reader)}
</main>`;
}

function limitsOf({ limits }: Worksheet): Markup {
  if (limits.length === 0) return html`<p>The policy changes no limit: the defaults hold.</p>`;
  return html`<h2>Limits changed by policy</h2>
<table><thead><tr><th scope="col">Limit</th><th scope="col">In force</th><th scope="col">Default</th></tr></thead><tbody>
${limits.map(
  ({ name, title, shown, usual }) =>
    html`<tr><td>${title} <code>${name}</code></td><td>${shown}</td><td>${usual}</td></tr>`,
)}
</tbody></table>`;
}

function summaryOf({ summary, findings, notRun }: Worksheet, reader: PageReader): Markup {
  const rows = findings.map(
    (finding) => html`<tr><td>${severityText(finding)}</td><td>${finding.message}<br>
<span class="small">${reader.link(findingPlace(finding, reader), placeOf(finding))}</span></td></tr>`,
  );
  return html`<h2>Findings</h2>
<p>${countsText(summary)}</p>
${rows.length > 0 && html`<table><thead><tr><th scope="col">Severity</th><th scope="col">Finding</th></tr></thead><tbody>${rows}</tbody></table>`}
<h2>Not looked at</h2>
${
  notRun.length === 0
    ? html`<p>Every check that concerns this file was run.</p>`
    : html`<table class="lacking"><thead><tr><th scope="col">Check</th><th scope="col">Lacks</th></tr></thead><tbody>
${notRun.map(({ check, title, missing }) => html`<tr><td>${title} <code>${check}</code></td><td>${linkedKeys(missing, reader)}</td></tr>`)}
</tbody></table>`
}`;
}

function placeOf({ key, path, range }: Finding): LinkedEntry {
  return { key, place: { path, line: range.start.line + 1 } };
}

/** Entries that are missing, each leading to where it should be. */
function linkedKeys(keys: readonly string[], { link }: PageReader): Markup {
  return html`${keys.map((key, at) => html`${at > 0 && ', '}${link(key, { key })}`)}`;
}

function workedOf({ file, pictures, cases, windows, otherWindows }: WorkedSheet, reader: PageReader): Markup {
  return html`<h2>Windows of the setpoints</h2>
${windows.map((each) => windowOf(each, reader))}
${otherWindows.length > 0 && html`<p class="small">No such setpoint, so no window: ${otherWindows.join(', ')}.</p>`}
${pictures.map(figureOf)}
<h2>Values of the file</h2>
<p>${HOW_TO_READ}</p>
${valuesOf(file, reader)}
${cases.map((each) => caseOf(each, reader))}`;
}

function caseOf({ name, entries, values, pictures }: CaseSheet, reader: PageReader): Markup {
  return html`<section class="case"><h2>Case: ${name}</h2>
<p>${entries === '' ? 'The case changes nothing.' : entries}</p>
${pictures.map(figureOf)}
${valuesOf(values, reader)}</section>`;
}

function figureOf(picture: Picture): Markup {
  if ('lacking' in picture) return html`<p>${picture.lacking}</p>`;
  return html`<figure><figcaption>${picture.title}</figcaption>${pictureOf(picture.svg)}</figure>`;
}

/** A picture of ours; where it is wider than its place, it is moved in it rather than made small. */
function pictureOf(svg: string): Markup {
  return html`<div class="picture">${trusted(svg)}</div>`;
}

function valuesOf(sheet: ValueSheet, reader: PageReader): Markup {
  const rows = sheet.rows.map((row) => valueRow(row, reader));
  return html`<table class="values"><thead><tr><th scope="col">Value</th><th scope="col">Result</th><th scope="col">How</th></tr></thead><tbody>
${rows}
</tbody></table>
${sheet.unavailable.length > 0 && unavailableOf(sheet.unavailable)}
${sheet.notConcerned.length > 0 && html`<p class="small">${notConcernedText(sheet)}</p>`}`;
}

/** A value's place in the page, for those who follow a number to what it rests on. */
export function anchorOf(id: string, caseIndex: number | undefined): string {
  return caseIndex === undefined ? id : `${id}-${caseIndex + 1}`;
}

export function anchorOfWindow(setpoint: string): string {
  return `window:${setpoint}`;
}

export function anchorOfBound(id: string): string {
  return `bound:${id}`;
}

function valueRow(row: ValueRow, reader: PageReader): Markup {
  const { id, title, caseIndex, shown, decidedBy, formula, source, assumes, inputs } = row;
  const listed = inputs.map((input, at) => html`${at > 0 && '; '}${inputItem(input, reader)}`);
  return html`<tr id="${anchorOf(id, caseIndex)}"><td>${title}<br><code>${id}</code></td>
<td><strong>${shown}</strong>${decidedBy !== undefined && html`<br>${decidedBy}`}</td>
<td><p class="how">${formula}</p>${listed.length > 0 && html`<p class="how">${listed}.</p>`}
${assumes !== undefined && html`<p class="how assumed">Assumed: ${assumes}.</p>`}<p class="how">Source: ${source}.</p></td></tr>
`;
}

function inputItem(input: InputRow, reader: PageReader): Markup {
  // A number and its unit stay on one line.
  const value = `${inputName(input)} = ${input.shown.replaceAll(' ', '\u00a0')}`;
  const { key, place } = input;
  const words = inputOrigin(input, reader);
  const origin = key === undefined ? words : reader.link(words, { key, place });
  return html`${value} (${input.assumed === undefined ? origin : html`<span class="assumed">${origin}</span>`})`;
}

function unavailableOf(rows: readonly UnavailableRow[]): Markup {
  return html`<h3>Not available</h3>
<table class="lacking"><thead><tr><th scope="col">Value</th><th scope="col">Why</th></tr></thead><tbody>
${rows.map(({ id, title, reason }) => html`<tr><td>${title} <code>${id}</code></td><td>${reason}</td></tr>`)}
</tbody></table>`;
}

const BOUND_COLUMNS = ['Bound', 'Number', 'Margin', 'Case', 'Reason and source'];

function windowOf(window: WindowSheet, reader: PageReader): Markup {
  const { title, setpoint, bounds, ruler } = window;
  return html`<h3 id="${anchorOfWindow(setpoint)}">Window of ${title}</h3>
<p><code>${reader.link(setpoint, { key: setpoint })}</code>: ${windowText(window)}</p>
${ruler !== undefined && pictureOf(ruler)}
<table class="bounds"><thead><tr>${BOUND_COLUMNS.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead><tbody>
${bounds.map((each) => boundOf(each, reader))}
</tbody></table>`;
}

function boundOf(bound: BoundRow, reader: PageReader): Markup {
  const { id, side, weight, shown, margin, missing } = bound;
  return html`<tr id="${anchorOfBound(id)}"><td>${side}, ${weight}<br><code>${id}</code></td>
<td>${shown === undefined ? 'not known' : html`<span class="number">${shown}</span>`}${missing.length > 0 && html`<br>lacks ${linkedKeys(missing, reader)}`}</td>
<td class="number">${margin?.startsWith('-') ? html`<span class="beyond">${margin}</span>` : margin}</td>
<td>${bound.case}</td><td>${boundReason(bound)}</td></tr>
`;
}
