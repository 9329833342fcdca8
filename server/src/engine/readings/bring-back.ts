import type { Checklist } from '../checklist/checklist.ts';
import type { Entry } from '../checklist/entry.ts';
import { type FieldPart, FORM_FIELDS, formFieldsOf, partOfFormField } from '../checklist/form-fields.ts';
import { readNumber } from '../checklist/reading-number.ts';
import { readingsText } from '../checklist/readings-document.ts';
import { read, type Stage, type Step } from '../checklist/step.ts';

/** Fields of a filled form by their full names, as typed; a tick is `yes`, an empty field the empty text. */
export type FormFields = ReadonlyMap<string, string>;

/** What a form brought: a `readings/1` document, and an account of every field. */
export interface BroughtBack {
  readonly text: string;
  readonly filled: number;
  readonly empty: number;
  /** Names of filled fields that belong to no item; they are in the document under these names. */
  readonly unknown: readonly string[];
  /** What cannot be read in the unit of its item; it is in the document as it was typed. */
  readonly unreadable: readonly { readonly item: string; readonly text: string; readonly fault: string }[];
  /** Settings that were written down and not ticked. */
  readonly unticked: readonly string[];
  /** Fields that the form of this checklist has, and this form does not. */
  readonly absent: readonly string[];
}

/** Names that say where the form comes from, and hold nothing that was entered. */
const OWN: readonly string[] = [FORM_FIELDS.installation, FORM_FIELDS.fingerprint, FORM_FIELDS.units];
const CREW = 'cover.crew';

interface Builder {
  done?: boolean;
  values: string[];
  by?: string;
  at?: string;
  note?: string;
}

/**
 * Turns the fields of a filled form into a `readings/1` document: each filled field is in it, and nothing else.
 * @param checklist of the installation as it is now; the form may be of an earlier state of it
 * @param installation path of the installation as the document is to name it
 */
export function bringBack(checklist: Checklist, fields: FormFields, installation: string): BroughtBack {
  const steps = new Map(checklist.stages.flatMap((stage) => stage.steps).map((step) => [step.id, step]));
  const filled = [...fields].filter(([name, text]) => text.trim() !== '' && !OWN.includes(name));
  const entries = new Map<string, Builder>();
  for (const [name, text] of filled) enter(entries, placeOf(name, steps), text.trim());
  const strange = [...entries.keys()].filter((id) => !steps.has(id));
  const readable = {
    installation,
    fingerprint: fields.get(FORM_FIELDS.fingerprint)?.trim() || checklist.fingerprint,
    stages: [...checklist.stages, strangers(strange)],
  };
  const known = [...steps.values()];
  return {
    text: readingsText(readable, entries as ReadonlyMap<string, Entry>),
    filled: filled.length,
    empty: fields.size - filled.length - OWN.filter((name) => fields.has(name)).length,
    unknown: filled.map(([name]) => name).filter((name) => !steps.has(placeOf(name, steps).id)),
    unreadable: known.flatMap((step) => unreadableIn(step, entries.get(step.id))),
    unticked: known.filter((step) => isUnticked(step, entries.get(step.id))).map(({ id }) => id),
    absent: known.flatMap(formFieldsOf).flatMap(({ name }) => (isThere(name, fields, steps) ? [] : [name])),
  };
}

interface FieldPlace {
  readonly id: string;
  readonly part: FieldPart;
}

/** The item that a field belongs to; the name of an item alone is its value or its tick. */
function placeOf(name: string, steps: ReadonlyMap<string, Step>): FieldPlace {
  if (name === FORM_FIELDS.date) return { id: 'cover.visit', part: 1 };
  if (name === FORM_FIELDS.crew) return { id: CREW, part: 'value' };
  const own = steps.get(name);
  if (own !== undefined) return { id: name, part: own.kind === 'do' ? 'done' : 'value' };
  const found = partOfFormField(name);
  return found === undefined || !steps.has(found.step)
    ? { id: name, part: 'value' }
    : { id: found.step, part: found.part };
}

function enter(entries: Map<string, Builder>, { id, part }: FieldPlace, text: string): void {
  const entry = entries.get(id) ?? { values: [] };
  entries.set(id, entry);
  if (part === 'done') entry.done = true;
  else if (part === 'value') entry.values = id === CREW ? text.split(/[,;\n]/).map((name) => name.trim()) : [text];
  else if (typeof part === 'number') putAt(entry.values, part - 1, text);
  else entry[part] = text;
}

// More fields than any step has; a foreign form may count to a million.
const MOST_FIELDS = 100;

function putAt(values: string[], index: number, text: string): void {
  const at = index >= 0 && index < MOST_FIELDS ? index : values.length;
  while (values.length < at) values.push('');
  values[at] = text;
}

/** A stage for what the checklist does not have, so that it is written down like the rest. */
function strangers(ids: readonly string[]): Stage {
  return { id: 'handover', title: '', steps: ids.map((id) => read(id, '')) };
}

function unreadableIn(step: Step, entry: Builder | undefined): BroughtBack['unreadable'] {
  const { id, kind, unit } = step;
  if (entry === undefined || unit === undefined || (kind !== 'read' && kind !== 'set')) return [];
  return entry.values.flatMap((text) => {
    const fault = text === '' ? undefined : readNumber(text, unit).fault;
    return fault === undefined ? [] : [{ item: id, text, fault }];
  });
}

function isUnticked({ kind }: Step, entry: Builder | undefined): boolean {
  return kind === 'set' && entry !== undefined && entry.values.length > 0 && entry.done !== true;
}

function isThere(name: string, fields: FormFields, steps: ReadonlyMap<string, Step>): boolean {
  if (fields.has(name)) return true;
  const { id, part } = placeOf(name, steps);
  // Forms that were made by hand name the item alone, or its readings by number.
  return fields.has(part === 'value' || part === 'done' ? id : `${id}.${part}`);
}
