import { parseText } from '../syntax/parse.ts';
import { NONE, type NodeIndex, type SyntaxTree } from '../syntax/tree.ts';
import { quoted } from '../text/yaml.ts';
import type { Checklist } from './checklist.ts';
import type { Entries, Entry } from './entry.ts';
import { withUnit } from './reading-number.ts';
import type { Step } from './step.ts';

/** What of a checklist its readings go back to. */
export type Readable = Pick<Checklist, 'installation' | 'fingerprint' | 'stages'>;

/** Entries as a `readings/1` document. The same entries give the same text. */
export function readingsText(checklist: Readable, entries: Entries): string {
  const steps = checklist.stages.flatMap((stage) => stage.steps);
  const rows = steps.flatMap((step) => rowOf(step, entries.get(step.id)));
  return [
    'document: readings/1',
    `installation: ${quoted(checklist.installation)}`,
    `fingerprint: ${quoted(checklist.fingerprint)}`,
    ...visitLines(entries),
    rows.length === 0 ? 'readings: []' : 'readings:',
    ...rows,
    ...asLeftLines(steps, entries),
    '',
  ].join('\n');
}

function visitLines(entries: Entries): readonly string[] {
  const [date = '', leader = ''] = entries.get('cover.visit')?.values ?? [];
  const crew = [leader, ...(entries.get('cover.crew')?.values ?? [])].map((name) => name.trim());
  const names = crew.filter((name) => name !== '');
  // A day that is none would make the whole document wrong; it stands in its own row all the same.
  const isDate = /^\d{4}-\d{2}-\d{2}$/.test(date.trim());
  if (!isDate && names.length === 0) return [];
  return [
    'visit:',
    ...(isDate ? [`  date: ${quoted(date.trim())}`] : []),
    ...(names.length === 0 ? [] : [`  crew: [${names.map(quoted).join(', ')}]`]),
  ];
}

function rowOf(step: Step, entry: Entry | undefined): readonly string[] {
  if (entry === undefined) return [];
  const said = [
    ...valueLine(step, entry),
    ...line('at', entry.at),
    ...line('by', entry.by),
    ...line('instrument', entry.instrument),
    ...line('note', entry.note),
  ];
  return said.length === 0 ? [] : [`  - item: ${quoted(step.id)}`, ...said];
}

function line(key: string, text: string | undefined): readonly string[] {
  return text === undefined || text.trim() === '' ? [] : [`    ${key}: ${quoted(text.trim())}`];
}

/** `yes` for a tick, the name for a signature, else what was read with its unit. */
function valueLine(step: Step, entry: Entry): readonly string[] {
  if (step.kind === 'hold') return line('value', entry.by);
  const values = untilLast((entry.values ?? []).map((text) => (text.trim() === '' ? '' : withUnit(text, step.unit))));
  if (values.every((text) => text === '')) return entry.done === true ? ['    value: "yes"'] : [];
  if (values.length < 2 && (step.fields?.length ?? 1) < 2) return line('value', values[0]);
  return [`    values: [${values.map(quoted).join(', ')}]`];
}

/** A page tells every field of a step, a form those up to the last one filled: the same readings are one document. */
function untilLast(values: readonly string[]): readonly string[] {
  return values.slice(0, values.findLastIndex((text) => text !== '') + 1);
}

const SETPOINTS = 'settings.';
/** Settings of the operation are no setpoints: they stand among the readings alone. */
const OPERATION = 'settings.operation.';

interface Branch {
  readonly branches: Map<string, Branch>;
  leaf?: string;
}

/** The settings as they were left, with the keys of `setpoints`. */
function asLeftLines(steps: readonly Step[], entries: Entries): readonly string[] {
  const root: Branch = { branches: new Map() };
  for (const step of steps) {
    const text = leftText(step, entries.get(step.id));
    if (text !== undefined) plant(root, step.id.slice(SETPOINTS.length).split('.'), text);
  }
  return root.branches.size === 0 ? [] : ['as_left:', ...branchLines(root, '  ')];
}

function plant(root: Branch, path: readonly string[], leaf: string): void {
  let at = root;
  for (const key of path) {
    const next = at.branches.get(key) ?? { branches: new Map() };
    at.branches.set(key, next);
    at = next;
  }
  at.leaf = leaf;
}

function branchLines({ branches }: Branch, indent: string): readonly string[] {
  return [...branches].flatMap(([key, branch]) => {
    const name = /^[a-z_]\w*$/i.test(key) ? key : quoted(key);
    if (branch.leaf !== undefined) return [`${indent}${name}: ${branch.leaf}`];
    return [`${indent}${name}:`, ...branchLines(branch, `${indent}  `)];
  });
}

/** What a setting was left at, as YAML; undefined where nobody wrote it down. */
function leftText(step: Step, entry: Entry | undefined): string | undefined {
  const isSetpoint = step.kind === 'set' && step.id.startsWith(SETPOINTS) && !step.id.startsWith(OPERATION);
  const text = entry?.values?.[0]?.trim() ?? '';
  return isSetpoint && text !== '' ? settingText(step, text) : undefined;
}

function settingText(step: Step, text: string): string {
  const { planned, unit, choices = [], several } = step;
  if (several)
    return `[${listOf(text)
      .map((word) => quoted(choiceOf(word, choices)))
      .join(', ')}]`;
  const isBareNumber = typeof planned === 'number' && (unit ?? '') === '' && /^-?\d+(\.\d+)?$/.test(text);
  if (isBareNumber || typeof planned === 'boolean') return choiceOf(text, choices);
  return quoted(choiceOf(withUnit(text, unit), choices));
}

function listOf(text: string): readonly string[] {
  return text.split(/[,;]/).flatMap((word) => (/^\s*(none)?\s*$/i.test(word) ? [] : [word.trim()]));
}

/** The format's own word for what is printed with blanks: `volts per hertz` is `volts_per_hertz`. */
function choiceOf(text: string, choices: readonly string[]): string {
  const plain = text.toLowerCase().replace(/[\s_]+/g, '_');
  return choices.find((choice) => choice === plain) ?? text;
}

/** A `readings/1` document as entries again, or why it cannot be taken. */
export type ReadReadings =
  | { readonly entries: Entries; readonly fingerprint: string; readonly unknown: readonly string[] }
  | { readonly refused: string };

/** Reads a `readings/1` document into entries of a checklist; items that the checklist does not have are named. */
export function readReadings(text: string, checklist: Readable): ReadReadings {
  const { tree, problems } = parseText(text);
  const broken = problems.find(({ check }) => check === 'document.syntax');
  if (broken !== undefined) return { refused: broken.message };
  const kind = scalarAt(tree, tree.root, 'document');
  if (kind !== 'readings/1')
    return { refused: `The file is no readings document: its first key should be 'document: readings/1'.` };
  const steps = new Map(checklist.stages.flatMap((stage) => stage.steps.map((step) => [step.id, step] as const)));
  const rows = [...tree.children(tree.find('readings'))].map((row) => readRow(tree, row, steps));
  const known = rows.filter(({ step }) => step !== undefined);
  return {
    entries: new Map(known.map(({ id, entry }) => [id, entry])),
    fingerprint: scalarAt(tree, tree.root, 'fingerprint') ?? '',
    unknown: rows.filter(({ step }) => step === undefined).map(({ id }) => id),
  };
}

interface Row {
  readonly id: string;
  readonly step: Step | undefined;
  readonly entry: Entry;
}

function readRow(tree: SyntaxTree, row: NodeIndex, steps: ReadonlyMap<string, Step>): Row {
  const id = scalarAt(tree, row, 'item') ?? '';
  const step = steps.get(id);
  const value = scalarAt(tree, row, 'value');
  const list = [...tree.children(tree.child(row, 'values'))].map((each) => tree.scalar(each));
  const texts = list.length > 0 ? list : value === undefined ? [] : [value];
  const rest = {
    at: scalarAt(tree, row, 'at'),
    by: scalarAt(tree, row, 'by') ?? (step?.kind === 'hold' ? value : undefined),
    instrument: scalarAt(tree, row, 'instrument'),
    note: scalarAt(tree, row, 'note'),
  };
  return { id, step, entry: { ...filledIn(step, texts), ...rest } };
}

function filledIn(step: Step | undefined, texts: readonly string[]): Entry {
  const isTick = texts.length === 1 && /^(yes|true|done)$/i.test(texts[0] ?? '');
  if (step?.kind === 'hold') return {};
  if (step?.kind === 'do') return { done: isTick };
  return step?.kind === 'set' && isTick && step.planned !== true ? { done: true } : { values: texts };
}

function scalarAt(tree: SyntaxTree, node: NodeIndex, key: string): string | undefined {
  const at = tree.child(node, key);
  return at === NONE || !tree.isScalar(at) || tree.isAbsent(at) ? undefined : tree.scalar(at);
}
