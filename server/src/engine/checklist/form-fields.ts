import type { Step } from './step.ts';

/**
 * What a field of the PDF form holds: the reading or setting, its tick, the signature of a hold point, or a note. A
 * number counts the readings of a step that has several, from one.
 */
export type FieldPart = 'value' | 'done' | 'by' | 'at' | 'note' | number;

/** Fields of the form that belong to no step. */
export const FORM_FIELDS = {
  date: 'visit.date',
  crew: 'visit.crew',
  installation: 'setproof.installation',
  fingerprint: 'setproof.fingerprint',
  /** In which units it was printed: a bare number in it is meant so. */
  units: 'setproof.units',
} as const;

const PARTS: readonly string[] = ['value', 'done', 'by', 'at', 'note'];

/**
 * The full name of a form field: the step's id and the part, `inspection.motor.insulation.value`. In PDF a name is a
 * path whose inner nodes hold nothing, and the id of a step may be the beginning of another's; so every field is a leaf
 * below its step. A section of an id that reads like a part, or is empty, is written by code points, as `~76~alue`.
 */
export function formFieldName(step: string, part: FieldPart): string {
  return `${step.split('.').map(asSection).join('.')}.${part}`;
}

function asSection(section: string): string {
  if (section === '') return '~~';
  const marked = section.replace(/[^\p{L}\p{N}_\- ]/gu, byCode);
  return isPart(marked) ? marked.replace(/^./u, byCode) : marked;
}

function byCode(character: string): string {
  return `~${(character.codePointAt(0) ?? 0).toString(16)}~`;
}

function isPart(section: string): boolean {
  return PARTS.includes(section) || /^\d+$/.test(section);
}

/** Step and part of a form field; undefined for a name that {@link formFieldName} does not make. */
export function partOfFormField(name: string): { readonly step: string; readonly part: FieldPart } | undefined {
  const sections = name.split('.');
  const last = sections.pop() ?? '';
  if (sections.length === 0 || !isPart(last)) return undefined;
  const part = /^\d+$/.test(last) ? Number(last) : (last as FieldPart);
  return { step: sections.map(ofSection).join('.'), part };
}

function ofSection(section: string): string {
  if (section === '~~') return '';
  return section.replace(/~([0-9a-f]{1,6})~/g, (mark, code: string) => {
    const point = Number.parseInt(code, 16);
    return point > 0x10ffff ? mark : String.fromCodePoint(point);
  });
}

/** One field of a step on the form. */
export interface FormField {
  readonly name: string;
  readonly part: FieldPart;
  /** What is entered, beside the step's own text; empty where there is one reading. */
  readonly label: string;
}

/** The fields of a step, in the order in which they stand. */
export function formFieldsOf(step: Step): readonly FormField[] {
  return partsOf(step).map(([part, label]) => ({ name: nameOf(step.id, part), part, label }));
}

/** The crew is one field with the names in it; day and crew stand under the names of the document. */
function nameOf(id: string, part: FieldPart): string {
  if (id === 'cover.visit' && part === 1) return FORM_FIELDS.date;
  return id === 'cover.crew' ? FORM_FIELDS.crew : formFieldName(id, part);
}

function partsOf({ id, kind, fields = [] }: Step): readonly (readonly [FieldPart, string])[] {
  switch (kind) {
    case 'caution':
      return [];
    case 'do':
      return [['done', '']];
    case 'hold':
      return [
        ['by', 'Name'],
        ['at', 'Date and time'],
      ];
    case 'set':
      return [
        ['done', ''],
        ['value', 'as left'],
      ];
    case 'read':
      if (id === 'cover.crew') return [['value', 'names, with commas between']];
      return fields.length < 2 ? [['value', fields[0] ?? '']] : fields.map((label, index) => [index + 1, label]);
  }
}
