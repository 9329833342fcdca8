import { html, type Markup } from '../html/escape.ts';
import { renderPage } from '../html/page.ts';
import type { Paper } from '../html/print-css.ts';
import { DEFERS } from '../text/lines.ts';
import type { CompareReport } from './report.ts';
import { type Block, type Item, type Section, sectionsOf, type Table } from './sections.ts';
import { totalsOf } from './words.ts';

const CSS = `h2 { margin-top: 8mm; }
h3 { margin-top: 4mm; }
th, td { border-width: 0 0 0.5pt; padding: 0.9mm 3mm 0.9mm 0; font-size: 8.5pt; line-height: 1.3; }
thead th { white-space: nowrap; }
td { overflow-wrap: anywhere; }
td:first-child { width: 38%; }
table.wide td:first-child { width: 22%; }
table { margin-bottom: 2mm; }
li { margin-bottom: 1mm; }
summary { font-weight: 700; }
details { margin: 3mm 0; }
a { color: inherit; }`;

/** The comparison as one HTML file, printable in black and white. */
export function renderComparisonHtml(report: CompareReport, paper: Paper): string {
  const title = titleOf(report);
  const foot = [title, `Day of the checks: ${report.today}`, DEFERS];
  return renderPage({ title, frame: { paper, foot, band: undefined }, css: CSS, body: comparisonHtml(report) });
}

/** The same without a page around it, for one that has its own. */
export function comparisonHtml(report: CompareReport): Markup {
  const sections = sectionsOf(report);
  return html`<main>
<h1>${titleOf(report)}</h1>
<p>${totalsOf(report)} Day of the checks on both sides: ${report.today}.</p>
<p><em>${DEFERS}</em></p>
${overviewMarkup(sections)}
${sections.map(sectionMarkup)}
</main>`;
}

/** Each document in a line that leads to what is told of it. */
function overviewMarkup(sections: readonly Section[]): Markup {
  return html`<ul>${sections.map(
    ({ summary }, at) => html`<li><a href="#document-${at + 1}">${summary}</a></li>
`,
  )}</ul>`;
}

function titleOf({ before, after }: CompareReport): string {
  return `Comparison of ${before} with ${after}`;
}

function sectionMarkup({ title, blocks }: Section, at: number): Markup {
  return html`<section id="document-${at + 1}"><h2>${title}</h2>
${blocks.map(blockMarkup)}
</section>
`;
}

/** Details are open: paper has nothing to click on. */
function blockMarkup({ title, items, table, isDetail }: Block): Markup {
  const body = html`${items.length > 0 && html`<ul>${items.map(itemMarkup)}</ul>`}
${table !== undefined && table.rows.length > 0 && tableMarkup(table)}`;
  if (isDetail) return html`<details open><summary>${title}</summary>${body}</details>`;
  return html`<h3>${title}</h3>${body}`;
}

function itemMarkup({ lead, text, place }: Item): Markup {
  return html`<li>${lead !== '' && html`<strong>${lead}</strong>: `}${text}${place !== '' && html`<br><span class="small">${place}</span>`}</li>
`;
}

const WIDE = 6;

function tableMarkup({ head, rows }: Table): Markup {
  const kind = head.length > WIDE ? 'wide' : 'plain';
  return html`<table class="${kind}"><thead><tr>${head.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead><tbody>
${rows.map(
  (row) => html`<tr>${row.map((cell) => html`<td>${cell}</td>`)}</tr>
`,
)}</tbody></table>`;
}
