import { buildChecklist, type CheckedFile, type Evaluation, NONE, type Stage, type Step } from '../../engine/index.ts';
import { groupsOf, limitText, plannedText } from '../../render/checklist/words.ts';
import { html, type Markup } from '../../render/html/escape.ts';
import { Rests } from './rests.ts';
import { linkTo, type PanelContext } from './worksheet-panel.ts';

/** The checklist for a panel: what will stand on paper, without its boxes to tick and its room to write. */
export function checklistPanel(file: CheckedFile, { nameOf, places }: PanelContext): Markup {
  const { worked, document } = file;
  if (worked === undefined) return html`<main><h1>Checklist</h1><p>The values could not be worked out.</p></main>`;
  const checklist = buildChecklist(file, { units: 'as-written', path: nameOf(document.path) });
  const link = (step: Step, content: Markup) => {
    const [key] = keysOfStep(step, worked.evaluation);
    return key === undefined ? content : linkTo(places.ofKey(key), content);
  };
  return html`<main>
<h1>${checklist.title}</h1>
${checklist.band !== undefined && html`<p class="band">${checklist.band}</p>`}
<p>A look at what will be printed. To take it to site, save it: <em>Setproof: Save the checklist for print</em>.</p>
${checklist.stages.map((stage, at) => stageMarkup(stage, at, link))}
</main>`;
}

type StepLink = (step: Step, content: Markup) => Markup;

function stageMarkup({ title, steps }: Stage, at: number, link: StepLink): Markup {
  return html`<h2>${at === 0 ? title : `${at}. ${title}`}</h2>
${groupsOf(steps).map(
  (group) => html`${group.title !== undefined && html`<h3>${group.title}</h3>`}
<table class="steps"><thead><tr><th scope="col">Step</th><th scope="col">Planned or expected</th><th scope="col">Allowed</th></tr></thead><tbody>
${group.steps.map((step) => stepRow(step, link))}</tbody></table>
`,
)}`;
}

const LEADS: Readonly<Record<Step['kind'], string>> = {
  caution: 'Caution. ',
  hold: 'Hold point. ',
  do: '',
  read: '',
  set: '',
};

function stepRow(step: Step, link: StepLink): Markup {
  const { id, kind, text, source, note, limit, unit } = step;
  const basis = [note, source === undefined ? undefined : `Source: ${source}.`].filter((part) => part !== undefined);
  const lead = LEADS[kind] === '' ? '' : html`<strong>${LEADS[kind]}</strong>`;
  return html`<tr id="${anchorOfStep(id)}"><td>${lead}${text}
<br><span class="small">${basis.length > 0 && `${basis.join(' ')} `}${link(step, html`<code>${id}</code>`)}</span></td>
<td>${plannedText(step)}</td><td>${limitText(limit, unit)}</td></tr>
`;
}

export function anchorOfStep(id: string): string {
  return `step:${id}`;
}

/** Steps by the entries that they are about. */
export function checklistRests(file: CheckedFile): Rests {
  const rests = new Rests();
  const { worked } = file;
  if (worked === undefined) return rests;
  for (const step of buildChecklist(file, { units: 'as-written' }).stages.flatMap(({ steps }) => steps)) {
    for (const key of keysOfStep(step, worked.evaluation)) {
      const located = worked.evaluation.locate(key);
      if (located !== undefined) rests.add(located, anchorOfStep(step.id));
    }
  }
  return rests;
}

/** Where the equipment of a step stands in an installation, by the part of its id that names it. */
const ITEMS: Readonly<Record<string, string>> = {
  motor: 'equipment.motor',
  pump: 'equipment.pump',
  gauge: 'equipment.gauge',
  motor_lead: 'equipment.cable.motor_lead',
  cable: 'equipment.cable.main',
  transformer: 'equipment.transformer',
  drive: 'equipment.drive',
};
/** Entries that a note asks for stand in quotes. */
const QUOTED = /'([a-z_]+(?:\[\d+\])?(?:\.[a-z_]+(?:\[\d+\])?)+)'/g;

/**
 * The entries that a step is about: the setting that it enters, the entry that its note names, the equipment that it
 * inspects.
 */
function keysOfStep({ id, note = '', text }: Step, { installation }: Evaluation): readonly string[] {
  const { tree } = installation.document;
  const [, rest = ''] = /^[^.]+\.(?:missing\.)?(.*)$/.exec(id) ?? [];
  const setting = [rest, `setpoints.${rest}`].filter((key) => rest.includes('.') && tree.find(key) !== NONE);
  const named = [...`${text} ${note}`.matchAll(QUOTED)].map(([, key = '']) => key).filter(hasRoot);
  const item = ITEMS[rest.split('.')[0]?.replace(/_\d+$/, '') ?? ''];
  return [...setting, ...named, ...(item === undefined ? [] : [item])];
}

const ROOTS = /^(?:site|well|reservoir|fluid|supply|equipment|operation|setpoints|revision|conventions)\b/;

function hasRoot(key: string): boolean {
  return ROOTS.test(key);
}
