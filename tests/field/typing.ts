import type { Page } from 'playwright-core';
import { type Checklist, type Entry, formFieldsOf, type Step } from '../../server/src/engine/index.ts';
import { goodEntries } from '../support/good-visit.ts';

/** What a person does at one control: types a text, ticks, or presses a button. */
export interface Action {
  readonly at: string;
  readonly text: string | true;
}

/** A complete visit as it is typed at the well: not always in the sheet's unit, with notes, signs and accents. */
export function visitAtWell(checklist: Checklist, date: string): ReadonlyMap<string, Entry> {
  const steps = stepsOf(checklist);
  const entries = new Map([...goodEntries(checklist, date), ...Object.entries(OWN_WORDS)]);
  for (const { id } of steps.filter(({ kind }) => kind === 'hold'))
    entries.set(id, { by: 'A. Foreman', at: `${date}T08:30` });
  // The sheet shows words of the document with blanks; a list on the page offers them as they are.
  for (const { id, choices } of steps.filter((step) => step.choices !== undefined && step.several !== true)) {
    const [text = ''] = entries.get(id)?.values ?? [];
    entries.set(id, { values: [choices?.find((each) => each === text.replaceAll(' ', '_')) ?? text] });
  }
  return entries;
}

const OWN_WORDS: Readonly<Record<string, Entry>> = {
  'cover.crew': { values: ['Žofie Ångström', 'Łukasz "Luk" Őry', '井上'] },
  'inspection.motor.insulation': { values: ['> 2 Gohm'], note: 'dry, R ≥ 2 GΩ' },
  'inspection.motor.temperature': { values: ['68 degF'] },
  'settings.protection.overload.trip': { values: ['14500 mA'], note: 'as on the plate: \\ # "14,5"' },
  'settings.protection.intake_pressure_low.trip': { values: ['174 psi'] },
  'handover.remarks': { values: ['first line, colon: dash - and 100 %'] },
};

/** The visit at the fields of the PDF form. */
export function formActions(checklist: Checklist, entries: ReadonlyMap<string, Entry>): readonly Action[] {
  return stepsOf(checklist).flatMap((step) => {
    const entry = entries.get(step.id) ?? {};
    const fields = formFieldsOf(step).map(({ name, part }) => ({
      at: `[name="${name}"]`,
      text: part === 'done' ? (entry.done ?? '') : partText(step, entry, part),
    }));
    const note = { at: `[name="${step.id}.note"]`, text: entry.note ?? '' };
    return [...fields, note].filter(isAction);
  });
}

/** The visit at the controls of the field page, which stamps the times itself. */
export function pageActions(checklist: Checklist, entries: ReadonlyMap<string, Entry>): readonly Action[] {
  return stepsOf(checklist).flatMap(({ id, kind }) => {
    const { done, values = [], by = '', note = '' } = entries.get(id) ?? {};
    if (kind === 'hold')
      return [
        { at: control(id, 'by'), text: by },
        { at: `[id="${id}"] [data-sign]`, text: true as const },
      ];
    const ticks = kind === 'do' && done ? [{ at: `[id="${id}"] [data-part=done]`, text: true as const }] : [];
    const typed = values.map((text, index) => ({ at: control(id, String(index + 1)), text }));
    return [...ticks, ...typed, { at: control(id, 'note'), text: note }].filter(isAction);
  });
}

function stepsOf({ stages }: Checklist): readonly Step[] {
  return stages.flatMap(({ steps }) => steps);
}

function control(id: string, part: string): string {
  return `[id="${id}:${part}"]`;
}

function isAction(action: { readonly at: string; readonly text: string | boolean }): action is Action {
  return action.text !== '' && action.text !== false;
}

function partText({ id }: Step, { values = [], by = '', at = '' }: Entry, part: string | number): string {
  if (part === 'by') return by;
  if (part === 'at') return at;
  return typeof part === 'number' ? (values[part - 1] ?? '') : values.join(id === 'cover.crew' ? ', ' : '');
}

/**
 * Does it all in the page, as an editing command in the focused control: the browser raises the events of typing. A
 * control that is not there, or shut, stops it.
 */
export async function act(page: Page, actions: readonly Action[]): Promise<void> {
  await page.evaluate(`(${inPage})(${JSON.stringify(actions)})`);
}

const inPage = `(actions) => {
  for (const each of document.querySelectorAll('details')) each.open = true;
  for (const { at, text } of actions) {
    const control = document.querySelector(at);
    if (control === null) throw new Error('nothing at ' + at);
    if (control.matches(':disabled')) throw new Error(at + ' is shut');
    if (text === true) control.click();
    else if (control.matches('select, [type=date]')) {
      control.value = text;
      control.dispatchEvent(new Event('input', { bubbles: true }));
    } else {
      control.focus();
      document.execCommand('insertText', false, text);
    }
    if (text !== true && control.value !== text) throw new Error(at + ' takes no ' + text + ' but ' + control.value);
  }
  document.activeElement.blur();
}`;
