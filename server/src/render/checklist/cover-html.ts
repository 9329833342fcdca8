import type { Checklist, DeviationLine, FigureLine, FindingLine, Overview } from '../../engine/index.ts';
import { html, type Markup, trusted } from '../html/escape.ts';
import { identityPairs } from './words.ts';

/** Title block, computed summary and open points: what stands on the cover before its steps; `code` is the fingerprint’s as SVG. */
export function coverHtml(checklist: Checklist, code: string): Markup {
  const { overview } = checklist;
  return html`<div class="title-block">
<dl>
${identityPairs(checklist).map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>\n`)}
</dl>
<figure class="code"><span role="img" aria-label="QR code of the fingerprint">${trusted(code)}</span><figcaption class="small">Fingerprint as a code</figcaption></figure>
</div>
<p class="fingerprint"><span class="small">Fingerprint</span> <code>${checklist.fingerprint}</code></p>
${countsHtml(overview)}
${figuresHtml(overview)}
${openHtml(overview)}`;
}

function countsHtml({ counts }: Overview): Markup {
  const cells: readonly (readonly [string, number])[] = [
    ['Errors', counts.errors],
    ['Warnings', counts.warnings],
    ['Notes', counts.notes],
    ['Accepted', counts.deviated],
    ['Passed', counts.passed],
    ['Not run', counts.notRun],
    ['Set aside', counts.setAside],
  ];
  return html`<table class="counts"><caption>How the checks of the file ended</caption>
<thead><tr>${cells.map(([name]) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody><tr>${cells.map(([, count]) => html`<td>${count}</td>`)}</tr></tbody></table>
`;
}

function figuresHtml({ figures, cases, caseFigures }: Overview): Markup {
  const pairs = figures.map(({ title, values }) => html`<div><dt>${title}</dt><dd>${values[0]}</dd></div>\n`);
  const inNumbers = html`<h2 class="minor">The installation in numbers</h2>\n<dl class="pairs">${pairs}</dl>`;
  return html`${figures.length === 0 ? '' : inNumbers}
${caseFigures.length === 0 ? '' : figureTable('Computed for each case', cases, caseFigures)}`;
}

function figureTable(caption: string, columns: readonly string[], lines: readonly FigureLine[]): Markup {
  return html`<table class="figures"><caption>${caption}</caption>
<thead><tr><th scope="col">Quantity</th>${columns.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody>${lines.map(({ title, values }) => html`<tr><th scope="row">${title}</th>${values.map((each) => html`<td>${each}</td>`)}</tr>\n`)}</tbody></table>
`;
}

const SEVERITY_WORDS: Readonly<Record<FindingLine['severity'], string>> = {
  error: 'Error',
  warning: 'Warning',
  note: 'Note',
};

function openHtml({ findings, deviations, notRun, setAside }: Overview): Markup {
  return html`${list('Open findings', findings.map(findingHtml))}
${list('Accepted deviations', deviations.map(deviationHtml))}
${list(
  'Checks not run, and what they lack',
  notRun.map(({ check, missing }) => html`${check}: ${missing.join(', ')}`),
  'small',
)}
${list(
  'Checks set aside by the policy',
  setAside.map(({ check, reason }) => html`${check}: ${reason}`),
  'small',
)}`;
}

function list(title: string, items: readonly Markup[], style = ''): Markup {
  if (items.length === 0) return html``;
  return html`<h2 class="minor">${title}</h2>
<ul class="${style}">${items.map((item) => html`<li>${item}</li>\n`)}</ul>
`;
}

function findingHtml({ severity, message, check, key }: FindingLine): Markup {
  return html`<strong>${SEVERITY_WORDS[severity]}.</strong> ${message} <span class="small">(${check}${key === '' ? '' : `, ${key}`})</span>`;
}

function deviationHtml({ message, check, reason, until, approvedBy }: DeviationLine): Markup {
  return html`${message} <span class="small">(${check})</span> Accepted until ${until} by ${approvedBy}: ${reason}.`;
}
