import type { AnswerLine, AnswerStage, Handover } from '../../engine/index.ts';
import { html, type Markup } from '../html/escape.ts';
import { renderPage } from '../html/page.ts';
import type { Paper } from '../html/print-css.ts';
import {
  bandText,
  behindText,
  countsText,
  dueText,
  factsOf,
  isTickAlone,
  type Log,
  logFacts,
  logsOf,
  NOTHING,
  settingVerdict,
  stateText,
  titleOf,
} from './words.ts';

const CSS = `.facts div { display: flex; border-bottom: 0.5pt solid #000; padding: 1mm 0; }
.facts dt { width: 52mm; flex: none; }
.facts dd { margin: 0; font-weight: 700; }
.counts { font-weight: 700; }
.item { display: block; font-size: 7.5pt; }
table { table-layout: fixed; }
.severity { width: 22mm; font-weight: 700; }
.check { width: 46mm; }
.value { width: 34mm; }
.verdict { width: 26mm; }
.why { width: 36mm; }
.answer { width: 42mm; font-weight: 700; }
.due { width: 34mm; }
.behind { width: 28mm; }
td { font-size: 9pt; }
.differs td { border: 1.5pt solid #000; font-weight: 700; }
.reading { width: 52mm; }
.lead { break-after: avoid; }
table + table { margin-top: 3mm; }
.sign { height: 13mm; width: 52mm; }
ul.open { columns: 2; column-gap: 9mm; font-size: 9pt; }`;

const FIRST = 'The maker’s manual, the site’s rules, local codes and licensed practice come first.';

/** The handover report as one HTML file for screen and print: no script, nothing loaded, black on white. */
export function renderHandoverHtml(report: Handover, { paper }: { readonly paper: Paper }): string {
  const title = titleOf(report);
  return renderPage({
    title,
    frame: { paper, foot: [title, report.fingerprint ?? '', FIRST], band: bandText(report) },
    css: CSS,
    body: html`<main>
<h1>${title}</h1>
<dl class="facts">${factsOf(report).map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>\n`)}</dl>
<p>${stateText(report)}</p>
<p class="counts">${countsText(report)}</p>
<p class="small">${report.deferral}</p>
${part('Deviating', deviating(report))}
${part('Left open', openItems(report))}
${part('Settings as left', settings(report))}
${part('Signatures', signatures(report))}
${part('Remarks', remarks(report))}
${part('Checks that could not be made', notRun(report))}
${part('Done', html`${report.done.map(doneStage)}`)}
</main>`,
  });
}

function part(title: string, content: Markup): Markup {
  return html`<section><h2>${title}</h2>\n${content.text === '' ? html`<p>${NOTHING}</p>` : content}</section>\n`;
}

/** A table by its heads, each with the class that gives its column the width; none takes what is left. */
function table(heads: readonly (readonly [title: string, width?: string])[], rows: readonly Markup[]): Markup {
  if (rows.length === 0) return html``;
  return html`<table><thead><tr>${heads.map(([title, width = '']) => html`<th scope="col" class="${width}">${title}</th>`)}</tr></thead>
<tbody>${rows}</tbody></table>\n`;
}

function id(item: string | undefined): Markup {
  return item === undefined ? html`` : html`<code class="item">${item}</code>`;
}

function deviating(report: Handover): Markup {
  const rows = report.deviating.map(
    ({ severity, message, item, check }) =>
      html`<tr><td class="severity">${severity}</td><td>${message}${id(item)}</td><td><code>${check}</code></td></tr>\n`,
  );
  return table([['Severity', 'severity'], ['What was found'], ['Check', 'check']], rows);
}

function openItems({ open }: Handover): Markup {
  return html`${open.map(
    ({ title, lines }) =>
      html`<h3>${title}</h3>\n<ul class="open">${lines.map((line) => html`<li>${line.text}${note(line)}${id(line.item)}</li>\n`)}</ul>\n`,
  )}`;
}

function note(line: AnswerLine): Markup {
  return line.note === undefined ? html`` : html` <em>${line.note}</em>`;
}

function settings(report: Handover): Markup {
  const rows = report.settings.map((each) => {
    const { title, item, planned = '', left = '', note: why = '' } = each;
    const isOther = each.left !== undefined && !each.isSame;
    return html`<tr class="${isOther ? 'differs' : ''}"><td>${title}${id(item)}</td><td>${planned}</td><td>${left}</td><td>${settingVerdict(each)}</td><td>${why}</td></tr>\n`;
  });
  return table(
    [['Setting'], ['Planned', 'value'], ['As left', 'value'], ['Compared', 'verdict'], ['Note', 'why']],
    rows,
  );
}

function signatures(report: Handover): Markup {
  const rows = report.signatures.map(
    (line) =>
      html`<tr><td>${line.text}${note(line)}${id(line.item)}</td><td>${line.by ?? 'not signed'}</td><td>${line.at ?? ''}</td><td class="sign"></td></tr>\n`,
  );
  return table([['Hold point'], ['Released by', 'behind'], ['At', 'behind'], ['Signature on paper', 'sign']], rows);
}

function remarks(report: Handover): Markup {
  return table(
    [['Item', 'check'], ['Remark']],
    report.remarks.map(({ item, text }) => html`<tr><td><code>${item}</code></td><td>${text}</td></tr>\n`),
  );
}

function notRun(report: Handover): Markup {
  return table(
    [['Check', 'check'], ['What it lacks']],
    report.notRun.map(
      ({ check, missing }) => html`<tr><td><code>${check}</code></td><td>${missing.join(', ')}</td></tr>\n`,
    ),
  );
}

/** What was ticked and nothing more is a list; what was read, or has more to say, a table. */
function doneStage(stage: AnswerStage): Markup {
  const { title, lines } = stage;
  const ticked = lines.filter(isTickAlone);
  const told = lines.filter((line) => !isTickAlone(line) && line.series.length === 0);
  const list = html`<p class="lead">Ticked:</p>\n<ul class="open">${ticked.map(({ text }) => html`<li>${text}</li>\n`)}</ul>\n`;
  const heads = [['Item'], ['Answer', 'answer'], ['Due', 'due'], ['By, at, with', 'behind']] as const;
  return html`<h3>${title}</h3>\n${ticked.length === 0 ? '' : list}${table(heads, told.map(toldRow))}${logsOf(stage).map(logTable)}`;
}

function logTable({ names, rows }: Log): Markup {
  const heads = [['Reading', 'reading'], ...names.map((name) => [name] as const)] as const;
  const lines = rows.map(
    ({ line, texts }) =>
      html`<tr><td>${line.text} <span class="small">(${logFacts(line)})</span>${note(line)}${id(line.item)}</td>${texts.map((text) => html`<td>${text}</td>`)}</tr>\n`,
  );
  return table(heads, lines);
}

function toldRow(line: AnswerLine): Markup {
  const finding = line.finding === undefined ? '' : ` (${line.finding})`;
  return html`<tr><td>${line.text}${note(line)}${id(line.item)}</td><td class="answer">${line.answer}${finding}</td><td class="due">${dueText(line)}</td><td class="behind">${behindText(line)}</td></tr>\n`;
}
