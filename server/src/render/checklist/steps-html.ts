import type { Step } from '../../engine/index.ts';
import { html, type Markup, trusted } from '../html/escape.ts';
import { limitText, numberText, plannedText, runs, type StepGroup } from './words.ts';

/** More readings than this in one step go below its text, or side by side with the steps that share them. */
const FEW_FIELDS = 3;

/** The steps of one group: as a task list, as a setting sheet, or as a time table, whichever they are. */
export function stepsHtml(steps: readonly Step[], label: string): Markup {
  return html`${runs(steps, layoutOf).map((run) => tableOf(run, label))}`;
}

type Layout = 'tasks' | 'settings' | 'log';

function layoutOf(step: Step): Layout {
  if (step.kind === 'set') return 'settings';
  return isLogged(step) ? 'log' : 'tasks';
}

/** A row of a time table: it has readings at set times, and nothing else to say. */
function isLogged({ fields, limit, note }: Step): boolean {
  return (fields?.length ?? 0) > FEW_FIELDS && limit === undefined && note === undefined && fields?.[0] === '0 min';
}

function tableOf(steps: readonly Step[], label: string): Markup {
  const layout = steps[0] === undefined ? 'tasks' : layoutOf(steps[0]);
  if (layout === 'settings') return settingsTable(steps, label);
  return layout === 'log' ? logTable(steps, label) : taskTable(steps, label);
}

function taskTable(steps: readonly Step[], label: string): Markup {
  return html`<table class="tasks" aria-label="${label}">
<thead><tr><th scope="col" class="tick">Done</th><th scope="col">Step</th><th scope="col" class="limit">Expected or allowed</th><th scope="col" class="entry">Reading</th></tr></thead>
<tbody>
${steps.map(taskRow)}</tbody></table>
`;
}

function taskRow(step: Step): Markup {
  if (step.kind === 'caution') return cautionRow(step);
  if (step.kind === 'hold') return holdRow(step);
  const isWide = (step.fields?.length ?? 0) > FEW_FIELDS;
  if (isWide) return wideRow(step);
  const entry = step.kind === 'read' ? html`<td class="entry">${entries(step)}</td>` : undefined;
  const limit = hasLimit(step)
    ? html`<td class="limit"${entry === undefined ? SPAN_2 : ''}>${allowed(step)}</td>`
    : undefined;
  // What has nothing to be read and no limit takes the whole width.
  const span = 1 + (limit === undefined ? 1 : 0) + (limit === undefined && entry === undefined ? 1 : 0);
  return html`<tr id="${step.id}"><td class="tick">${box()}</td><td colspan="${span}">${stepText(step)}</td>${limit}${entry}</tr>
`;
}

/** Many readings of one step take the whole width, with the limit above them. */
function wideRow(step: Step): Markup {
  return html`<tr id="${step.id}"><td class="tick">${box()}</td><td colspan="3">${stepText(step)}${allowed(step)}${grid(step)}</td></tr>
`;
}

const SPAN_2 = trusted(' colspan="2"');

function hasLimit({ planned, expected, limit }: Step): boolean {
  return planned !== undefined || expected !== undefined || limit !== undefined;
}

function box(): Markup {
  return html`<span class="box" role="img" aria-label="to be ticked"></span>`;
}

function cautionRow({ id, text, source }: Step): Markup {
  return html`<tr id="${id}" class="caution"><td colspan="4"><strong>Caution.</strong> ${text}${source === undefined ? '' : html` <span class="small">(${source})</span>`}</td></tr>
`;
}

function holdRow({ id, text }: Step): Markup {
  const line = (name: string) => html`<span class="line"><span class="small">${name}</span></span>`;
  return html`<tr id="${id}" class="hold"><td class="tick">${box()}</td><td colspan="3"><strong>${text}</strong><span class="signature">${line('Name')}${line('Signature')}${line('Date and time')}</span> <code>${id}</code></td></tr>
`;
}

function stepText({ id, text, note, source }: Step): Markup {
  const basis = source === undefined ? undefined : `Source: ${source}.`;
  const words = [note, basis].filter((each) => each !== undefined).join(' ');
  return html`${text}<span class="note">${words === '' ? '' : `${words} `}<code>${id}</code></span>`;
}

/** Planned or expected value above, limit below. */
function allowed(step: Step): Markup {
  const planned = plannedText(step);
  const limit = limitText(step.limit, step.unit);
  const name = step.planned === undefined ? 'expected' : 'planned';
  const first = planned === '' ? '' : html`<span class="planned">${name} <strong>${planned}</strong></span>`;
  return html`${first}${limit === '' ? '' : html`<span class="planned"><strong>${limit}</strong></span>`}`;
}

/** Room to write: one box, or one for each reading with its name. */
function entries({ fields, unit }: Step): Markup {
  return html`${(fields ?? ['']).map((name) => writing(name, unit))}`;
}

function grid(step: Step): Markup {
  return html`<span class="grid">${entries(step)}</span>`;
}

/** The settings of several groups in one table, each group under its name. */
export function settingSheet(groups: readonly StepGroup[]): Markup {
  return html`<table class="settings" aria-label="Setting sheet">
${SETTINGS_HEAD}
${groups.map(
  ({
    title,
    steps,
  }) => html`<tbody>${title === undefined ? '' : html`<tr class="group"><th colspan="5" scope="rowgroup">${title}</th></tr>`}
${steps.map(settingRow)}</tbody>
`,
)}</table>
`;
}

const SETTINGS_HEAD = html`<thead><tr><th scope="col" class="tick">Set</th><th scope="col">Setting</th><th scope="col" class="value">Planned</th><th scope="col" class="limit">Allowed</th><th scope="col" class="entry">As left</th></tr></thead>`;

function settingsTable(steps: readonly Step[], label: string): Markup {
  return html`<table class="settings" aria-label="${label}">
${SETTINGS_HEAD}
<tbody>
${steps.map(settingRow)}</tbody></table>
`;
}

function settingRow(step: Step): Markup {
  const planned = step.planned === undefined ? 'not in the file' : numberText(step.planned);
  const unit = step.unit === undefined ? '' : html` ${step.unit}`;
  const limit = limitText(step.limit, step.unit);
  const allowedCell = limit === '' ? undefined : html`<td class="limit">${limit}</td>`;
  return html`<tr id="${step.id}"><td class="tick">${box()}</td><td>${stepText(step)}</td><td class="value"${limit === '' ? SPAN_2 : ''}><strong>${planned}</strong>${unit}</td>${allowedCell}<td class="entry">${writing('', step.unit)}</td></tr>
`;
}

/** An empty box with the name of the reading and its unit. */
function writing(name: string, unit: string | undefined): Markup {
  return html`<span class="write"><span class="small">${name}</span><span class="unit">${unit}</span></span>`;
}

/** Steps with the same times side by side: what is read down the side, when along the top. */
function logTable(steps: readonly Step[], label: string): Markup {
  return html`${runs(steps, ({ fields }) => fields?.join()).map((run) => {
    const times = run[0]?.fields ?? [];
    return html`<table class="log" aria-label="${label}">
<thead><tr><th scope="col">Reading</th>${times.map((time) => html`<th scope="col">${time}</th>`)}</tr></thead>
<tbody>
${run.map(
  (
    step,
  ) => html`<tr id="${step.id}"><th scope="row">${step.text}${step.unit === undefined ? '' : html`, <span class="number">${step.unit}</span>`}</th>${times.map(() => html`<td></td>`)}</tr>
`,
)}</tbody></table>
`;
  })}`;
}
