import type { Checklist, Stage } from '../../engine/index.ts';
import { html, type Markup } from '../html/escape.ts';
import { renderPage } from '../html/page.ts';
import type { Paper } from '../html/print-css.ts';
import { coverHtml } from './cover-html.ts';
import { codeSvg, footLines, pageCode } from './foot.ts';
import { settingSheet, stepsHtml } from './steps-html.ts';
import { CHECKLIST_CSS } from './style.ts';
import { groupsOf, runs, type StepGroup } from './words.ts';

export interface HtmlOptions {
  readonly paper: Paper;
}

/**
 * The checklist as one HTML file for screen and print: no script, nothing loaded, black on white. Printed, each page
 * carries its number, the fingerprint, and the band of an installation with errors.
 */
export function renderChecklistHtml(checklist: Checklist, { paper }: HtmlOptions): string {
  const { title, fingerprint, band, stages } = checklist;
  const code = codeSvg(fingerprint);
  return renderPage({
    title,
    frame: {
      paper,
      foot: footLines(checklist),
      band,
      code: pageCode(code),
    },
    css: CHECKLIST_CSS,
    body: html`${bandHtml(band)}
<main>
${stages.map((stage, index) => stageHtml(checklist, stage, index, code))}
</main>`,
  });
}

/** On the screen the band stays in view; on paper it stands in the margin of each page. */
function bandHtml(band: string | undefined): Markup {
  return band === undefined ? html`` : html`<p class="band" role="alert">${band}</p>`;
}

function stageHtml(checklist: Checklist, stage: Stage, index: number, code: string): Markup {
  const heading = `stage-${stage.id}`;
  const title =
    index === 0
      ? html`<h1 id="${heading}">${checklist.title}</h1>`
      : html`<h2 id="${heading}">${index}. ${stage.title}</h2>`;
  return html`<section class="stage" aria-labelledby="${heading}">
${title}
${index === 0 ? coverHtml(checklist, code) : ''}
${blocksOf(stage).map((groups, at) => blockHtml(groups, `${heading}-${at}`, stage.title))}
</section>
`;
}

/** Groups of settings share one table, so that the setting sheet is not torn into pieces; others stand alone. */
function blocksOf(stage: Stage): readonly (readonly StepGroup[])[] {
  return runs(groupsOf(stage.steps), (group) => (isSettings(group) ? 'settings' : group));
}

function isSettings({ steps }: StepGroup): boolean {
  return steps.every(({ kind }) => kind === 'set');
}

function blockHtml(groups: readonly StepGroup[], id: string, stageTitle: string): Markup {
  const [first] = groups;
  if (first === undefined) return html``;
  if (isSettings(first)) return html`<h3 id="${id}">Setting sheet</h3>\n${settingSheet(groups)}`;
  return html`${groupHeading(first.title, id)}${stepsHtml(first.steps, first.title ?? stageTitle)}`;
}

function groupHeading(title: string | undefined, id: string): Markup {
  return title === undefined ? html`` : html`<h3 id="${id}">${title}</h3>\n`;
}
