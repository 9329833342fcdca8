import { isSame } from '../checklist/reading-limits.ts';
import { readNumber, withUnit } from '../checklist/reading-number.ts';
import type { Step } from '../checklist/step.ts';
import { AS_LEFT_DIFFERS } from '../checks/readings/identity.ts';
import type { Fix } from '../findings/finding.ts';
import type { Document } from '../format/document.ts';
import { toAbsolute } from '../quantity/convert.ts';
import type { Quantity, Reference } from '../quantity/types.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';
import type { VisitCheck, VisitFinding } from './declare.ts';
import { type Overlay, scalarText } from './overlay.ts';
import { asLeftKey, type Row, saysYes, type Visit, writtenAt } from './visit.ts';

export const AS_LEFT_CHECKS: readonly VisitCheck[] = [{ check: AS_LEFT_DIFFERS, judge: differences }];

/** A setting as it was left beside the one that is planned. */
export interface SettingLeft {
  /** Dotted key in the installation. */
  readonly key: string;
  /** Id of its item on the setting sheet. */
  readonly item: string;
  /** Dotted key in the readings. */
  readonly at: string;
  readonly left: string;
  /** As the file has it; undefined where it plans none. */
  readonly planned: string | undefined;
  readonly isSame: boolean;
  readonly note: string | undefined;
  /** As YAML in the installation. */
  readonly text: string;
}

/** Every setting that was written down: the setpoints, and what the sheet sets beside them. */
export function settingsLeft(visit: Visit): readonly SettingLeft[] {
  const leaves = leavesBelow(visit.document, visit.document.tree.find('as_left'));
  const setpoints = leaves.map((node) => setpointLeft(visit, node));
  const known = new Set(setpoints.map(({ item }) => item));
  return [...setpoints, ...visit.rows.flatMap((row) => (known.has(row.item) ? [] : (rowLeft(row) ?? [])))];
}

function leavesBelow(document: Document, node: NodeIndex): readonly NodeIndex[] {
  const { tree } = document;
  if (node === NONE) return [];
  if (tree.isMapping(node)) return [...tree.children(node)].flatMap((child) => leavesBelow(document, child));
  // What the format does not know is an unknown key already, or the author's own.
  return tree.isAbsent(node) || document.shapes[node] === undefined ? [] : [node];
}

function setpointLeft(visit: Visit, node: NodeIndex): SettingLeft {
  const { document, planned } = visit;
  const at = document.tree.path(node);
  const name = at.replace(/^as_left\./, '');
  const key = `setpoints.${name}`;
  const there = planned.document.tree.find(key);
  const item = `settings.${name}`;
  return {
    key,
    item,
    at,
    left: writtenAt(document, node) ?? '',
    planned: writtenAt(planned.document, there),
    isSame: there !== NONE && sameSetpoint(visit, node, there),
    note: visit.row(item)?.note,
    text: overlayText(visit, node),
  };
}

// A setting that went through a conversion of units is still the same.
const SLACK = 1e-9;

function sameSetpoint({ document, planned, facts }: Visit, left: NodeIndex, plan: NodeIndex): boolean {
  const [a, b] = [document.quantities[left], planned.document.quantities[plan]];
  if (a === undefined || b === undefined)
    return alike(writtenAt(document, left)) === alike(writtenAt(planned.document, plan));
  const { atmosphere } = facts.evaluation.installation;
  const off = Math.abs(numberOf(a, document, atmosphere) - numberOf(b, planned.document, atmosphere));
  const rounding = a.unit === b.unit ? 0 : Math.max(a.resolution, b.resolution);
  return off <= Math.max(rounding, SLACK * Math.abs(b.value));
}

function numberOf(quantity: Quantity, document: Document, atmosphere: number): number {
  return quantity.kind.point === 'pressure' ? toAbsolute(quantity, bareMeans(document), atmosphere) : quantity.value;
}

function bareMeans({ tree }: Document): Reference {
  return tree.scalar(tree.find('conventions.pressure')) === 'absolute' ? 'absolute' : 'gauge';
}

/** Words and lists as they are compared: `cycle rms` is `cycle_rms`, and a list has no order. */
function alike(text = ''): string {
  const words = text.split(',').map((word) =>
    word
      .trim()
      .toLowerCase()
      .replace(/[\s_]+/g, '_'),
  );
  const said = words.map((word) => ({ yes: 'true', on: 'true', no: 'false', off: 'false' })[word] ?? word);
  return said.sort().join(',');
}

/** A pressure keeps its zero where the two documents count from different ones. */
function overlayText({ document, planned }: Visit, node: NodeIndex): string {
  const quantity = document.quantities[node];
  const isMoved = quantity?.kind.point === 'pressure' && bareMeans(document) !== bareMeans(planned.document);
  if (quantity !== undefined && isMoved && quantity.reference === undefined)
    return `${quantity.number} ${quantity.unit}(${bareMeans(document) === 'gauge' ? 'g' : 'a'})`;
  const { tree } = document;
  if (!tree.isSequence(node)) return scalarText(document, node);
  return `[${[...tree.children(node)].map((item) => scalarText(document, item)).join(', ')}]`;
}

/** A setting that stands among the readings: the tap, the operation, or a setpoint of which `as_left` says nothing. */
function rowLeft(row: Row): SettingLeft | undefined {
  const step = row.placed?.step;
  const [entry] = row.entries;
  const isTickAlone = saysYes(row) && step?.planned !== true;
  if (step?.kind !== 'set' || entry === undefined || entry.text === '' || isTickAlone) return undefined;
  const left = withUnit(entry.text, step.unit);
  return {
    key: installationKey(step.id),
    item: step.id,
    at: entry.key,
    left,
    planned: plannedText(step),
    isSame: sameAsStep(step, left),
    note: row.note,
    text: JSON.stringify(left),
  };
}

function installationKey(id: string): string {
  if (id === 'surface.transformer.tap') return 'setpoints.transformer.tap';
  const setpoint = asLeftKey(id);
  return setpoint === undefined ? id.replace(/^settings\./, '') : setpoint.replace(/^as_left/, 'setpoints');
}

function plannedText({ planned, unit }: Step): string | undefined {
  if (planned === undefined) return undefined;
  return `${typeof planned === 'boolean' ? (planned ? 'yes' : 'no') : planned} ${unit ?? ''}`.trim();
}

function sameAsStep(step: Step, left: string): boolean {
  if (typeof step.planned !== 'number' || step.unit === undefined) return alike(left) === alike(plannedText(step));
  const { number } = readNumber(left, step.unit);
  return number !== undefined && isSame(number, step.planned);
}

/** A setting that is written down twice, as the tap is, is told of once where both say the same. */
function differences(visit: Visit): readonly VisitFinding[] {
  const settings = settingsLeft(visit);
  const isFirst = (each: SettingLeft) =>
    settings.find(({ key, left }) => key === each.key && alike(left) === alike(each.left)) === each;
  return settings.filter(isFirst).flatMap((each) => differing(visit, each) ?? []);
}

function differing(visit: Visit, setting: SettingLeft): VisitFinding | undefined {
  const { key, at, left, planned, isSame, note } = setting;
  if (isSame) return undefined;
  const plan = planned === undefined ? 'plans none' : `plans ${planned}`;
  const why = note === undefined ? 'Bring it into the file, or set the well as planned.' : `The crew notes: ${note}`;
  return {
    at,
    planned: planned === undefined ? undefined : key,
    severity: note === undefined ? undefined : 'note',
    message: `'${key}' was left at ${left}, and the file ${plan}. ${why}${/[.!?]$/.test(why) ? '' : '.'}`,
    fixes: intoInstallation(visit, setting),
  };
}

function intoInstallation({ planned: { document } }: Visit, { key, left, text }: SettingLeft): readonly Fix[] {
  const node = document.tree.find(key);
  if (node === NONE || !document.tree.isScalar(node)) return [];
  const edit = { path: document.path, span: document.tree.span(node), newText: text };
  return [{ title: `Bring ${left} into the installation`, kind: 'offer', edits: [edit] }];
}

/** The settings as they were left, to be laid over the installation. What is no setting of the file stays out. */
export function overlayOf(visit: Visit): Overlay {
  const settings = settingsLeft(visit).filter(({ key }) => /^(setpoints|operation)\./.test(key));
  // The tap is written down twice; the setting sheet has the last word.
  return new Map([...settings].reverse().map(({ key, text }) => [key, text]));
}
