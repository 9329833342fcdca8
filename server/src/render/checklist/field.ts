import { type Checklist, policyHash, type Stage, type Step } from '../../engine/index.ts';
import { jsonText } from '../escape.ts';
import { html, type Markup, trusted } from '../html/escape.ts';
import { marginBoxes } from '../html/print-css.ts';
import { SCRIPT, SCRIPT_HASH, STYLE, STYLE_HASH } from './field/generated/page.ts';
import { stepHtml } from './field/step-html.ts';
import { codeSvg, footLines, pageCode } from './foot.ts';
import { groupsOf, revisionText } from './words.ts';

/**
 * The checklist as one HTML file that is filled on a telephone or tablet without a network: it keeps what is typed on
 * the device, judges it with the engine's own functions, and saves a `readings/1` document. Nothing is loaded.
 */
export function renderChecklistField(checklist: Checklist): string {
  const code = codeSvg(checklist.fingerprint);
  const margins = printedMargins(checklist, code);
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy(margins))}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${checklist.title}</title>
<style>${trusted(STYLE)}</style>
<style>${trusted(margins)}</style>
</head>
<body>
${headHtml(checklist)}
<main>
${checklist.stages.map((stage, index) => stageHtml(checklist, stage, index, code))}
</main>
<footer>
<p>${checklist.deferral}</p>
<p class="small">Well ${checklist.well}. ${revisionText(checklist.revision)}. Fingerprint ${checklist.fingerprint}</p>
</footer>
<script type="application/json" id="checklist">${trusted(dataText(checklist))}</script>
<script>${trusted(SCRIPT)}</script>
</body>
</html>
`.text;
}

/** Printed, each page carries its number, the fingerprint and its code, and the band, as the sheet does. */
function printedMargins(checklist: Checklist, code: string): string {
  const { band } = checklist;
  return `@page {\n${marginBoxes({ foot: footLines(checklist), band, code: pageCode(code) })}\n}`;
}

/** Nothing runs and nothing is loaded but what stands in the page itself. */
function policy(margins: string): string {
  const styles = `'${STYLE_HASH}' '${policyHash(margins)}'`;
  return `default-src 'none'; script-src '${SCRIPT_HASH}'; style-src ${styles}; img-src data:; base-uri 'none'; form-action 'none'`;
}

/** What the script works with; a `<` could end its element. */
function dataText({ installation, fingerprint, well, stages }: Checklist): string {
  return jsonText({ installation, fingerprint, well, stages }).replaceAll('<', '\\u003c');
}

function headHtml({ title, band, revision, fingerprint, deferral }: Checklist): Markup {
  return html`<header>
<h1>${title}</h1>
<p>${revisionText(revision)}. Fingerprint <code>${fingerprint.replace(/^sha256:/, '').slice(0, 12)}</code>…</p>
${band === undefined ? '' : html`<p class="band" role="alert">${band}</p>`}
<p class="small">${deferral}</p>
<noscript><p class="alert">This page needs its script to keep and save readings. Open it in a browser, not in a preview.</p></noscript>
<p class="alert" id="warning" role="alert" hidden></p>
<p><label for="who">Your name, put to each entry</label><input type="text" id="who" autocomplete="name"></p>
</header>
<nav class="bar" aria-label="Progress and readings">
<p id="progress" role="status"></p>
<div class="buttons">
<button type="button" id="next">Next open</button>
<button type="button" id="save">Save</button>
<button type="button" id="load">Load</button>
<button type="button" id="clear">Clear</button>
<input type="file" id="file" accept=".yaml,.yml" aria-label="Readings document to load" hidden>
</div>
<p id="message" role="status" class="small"></p>
</nav>`;
}

function stageHtml(checklist: Checklist, stage: Stage, index: number, code: string): Markup {
  const title = index === 0 ? stage.title : `${index}. ${stage.title}`;
  return html`<section aria-labelledby="stage-${stage.id}">
<h2 id="stage-${stage.id}">${title}</h2>
${index === 0 ? coverHtml(checklist, code) : ''}
${groupsOf(stage.steps).map(({ title: group, steps }) => groupHtml(group, steps))}
</section>
`;
}

function groupHtml(title: string | undefined, steps: readonly Step[]): Markup {
  return html`${title === undefined ? '' : html`<h3>${title}</h3>\n`}${steps.map(stepHtml)}`;
}

function coverHtml({ overview }: Checklist, code: string): Markup {
  const { counts, findings, deviations, figures } = overview;
  const open = [
    ...findings.map(({ severity, message, check }) => `${severity}: ${message} (${check})`),
    ...deviations.map(({ message, reason, until }) => `accepted: ${message} Until ${until}: ${reason}.`),
  ];
  const ended = `${counts.errors} errors, ${counts.warnings} warnings, ${counts.notes} notes open; ${counts.deviated} accepted; ${counts.passed} checks passed, ${counts.notRun} not run, ${counts.setAside} set aside.`;
  return html`<div class="code" role="img" aria-label="QR code of the fingerprint">${trusted(code)}</div>
<p>${ended}</p>
<dl>${figures.map(({ title, values }) => html`<div><dt>${title}</dt><dd>${values[0]}</dd></div>\n`)}</dl>
${open.length === 0 ? '' : html`<details><summary>Open findings and deviations</summary><ul>${open.map((each) => html`<li>${each}</li>\n`)}</ul></details>`}
`;
}
