import type { Step } from '../../../engine/index.ts';
import { html, type Markup, trusted } from '../../html/escape.ts';
import { limitText, plannedText } from '../words.ts';

/** One step of the field page. What the script looks for is marked with `data-`; ids of elements are for labels. */
export function stepHtml(step: Step): Markup {
  if (step.kind === 'caution') return cautionHtml(step);
  return html`<fieldset id="${step.id}" data-step${step.kind === 'hold' ? HOLD : ''}>
${bodyHtml(step)}
<p class="verdict" id="${step.id}:verdict" data-said aria-live="polite"></p>
<p class="shut" data-shut></p>
${step.kind === 'hold' ? '' : detailsHtml(step)}
</fieldset>
`;
}

const HOLD = trusted(' class="hold"');

function cautionHtml({ id, text, source }: Step): Markup {
  return html`<p class="caution" id="${id}">Caution. ${text}${source === undefined ? '' : ` (${source})`}</p>
`;
}

function bodyHtml(step: Step): Markup {
  switch (step.kind) {
    case 'do':
      return html`<label class="tick"><input type="checkbox" data-part="done"> <span>${step.text}</span></label>${noteHtml(step)}`;
    case 'hold':
      return holdHtml(step);
    default:
      return html`<legend>${step.text}</legend>${allowedHtml(step)}${noteHtml(step)}<div class="entries">${entriesHtml(step)}</div>`;
  }
}

function holdHtml({ id, text }: Step): Markup {
  return html`<legend>${text}</legend>
<div class="entries"><div><label for="${id}:by">Name of the person who signs</label><input type="text" id="${id}:by" data-part="by" autocomplete="off"></div>
<button type="button" data-sign>Sign</button><button type="button" data-withdraw hidden>Withdraw the signature</button></div>`;
}

function allowedHtml(step: Step): Markup {
  const planned = plannedText(step);
  const limit = limitText(step.limit, step.unit);
  const name = step.planned === undefined ? 'Expected' : 'Planned';
  const words = [planned === '' ? '' : `${name} ${planned}`, limit].filter((each) => each !== '').join('; ');
  return words === '' ? html`` : html`<p class="allowed">${words}</p>`;
}

function noteHtml({ note, source }: Step): Markup {
  const basis = source === undefined ? undefined : `Source: ${source}.`;
  const words = [note, basis].filter((each) => each !== undefined).join(' ');
  return words === '' ? html`` : html`<p class="note">${words}</p>`;
}

function entriesHtml(step: Step): readonly Markup[] {
  const { id, kind, unit, planned } = step;
  const inputs = (step.fields ?? ['']).map((name, index) => entryHtml(step, name, index));
  const units =
    unit === undefined
      ? []
      : [
          html`<div><label for="${id}:unit">Unit</label><select id="${id}:unit" data-unit><option>${unit}</option></select></div>`,
        ];
  const asPlanned =
    kind === 'set' && planned !== undefined ? [html`<button type="button" data-planned>As planned</button>`] : [];
  return [...inputs, ...units, ...asPlanned];
}

function entryHtml(step: Step, name: string, index: number): Markup {
  const key = `${step.id}:${index + 1}`;
  const attributes = html`id="${key}" data-part="value" data-index="${index}" aria-describedby="${step.id}:verdict"`;
  return html`<div><label for="${key}">${labelOf(step, name, index)}</label>${controlHtml(step, name, attributes)}</div>`;
}

/** Fields of one name are told apart by their number. */
function labelOf({ kind, fields = [] }: Step, name: string, index: number): string {
  if (name === '') return kind === 'set' ? 'As left' : 'Reading';
  const isRepeated = fields.filter((each) => each === name).length > 1;
  return isRepeated ? `${name} ${index + 1}` : name;
}

function controlHtml({ choices, several, fields, prose }: Step, name: string, attributes: Markup): Markup {
  if (choices !== undefined && several !== true) {
    const options = choices.map((choice) => html`<option value="${choice}">${choice.replaceAll('_', ' ')}</option>`);
    return html`<select ${attributes}><option value=""></option>${options}</select>`;
  }
  if (prose) return html`<textarea ${attributes} rows="3" autocomplete="off"></textarea>`;
  const isDay = name === 'date' && fields !== undefined;
  return html`<input type="${isDay ? 'date' : 'text'}" ${attributes} autocomplete="off" autocapitalize="off" spellcheck="false">`;
}

function detailsHtml({ id, kind }: Step): Markup {
  const line = (part: string, label: string) =>
    html`<div><label for="${id}:${part}">${label}</label><input type="text" id="${id}:${part}" data-part="${part}" autocomplete="off"></div>`;
  return html`<details><summary>Note and time</summary><div class="entries">${line('note', 'Note')}${kind === 'read' ? line('instrument', 'Instrument') : ''}${line('at', 'When')}${line('by', 'By')}</div></details>`;
}
