import {
  type BoundReading,
  type CheckedFile,
  type Evaluation,
  type ExplainedInput,
  explainInputs,
  HANDBOOK,
  insideBy,
  kindNamed,
  missingEntries,
  type NetworkNode,
  State,
  type WindowReading,
  type Worked,
} from '../../engine/index.ts';
import { jsonText } from '../escape.ts';

/**
 * `worksheet --format json`: values and windows in internal units, unrounded; its schema is
 * schemas/worksheet-output.schema.json.
 * @param path the installation as the reader knows it
 */
export function worksheetJson({ document, fingerprint }: CheckedFile, worked: Worked, path: string): string {
  const { evaluation, windows } = worked;
  const slots = HANDBOOK.flatMap(({ id }) => slotsOf(evaluation, id));
  const sheet = {
    setproof: 1,
    installation: path,
    document: document.label,
    fingerprint: fingerprint(),
    values: slots
      .filter((each) => stateOf(evaluation, each) === State.available)
      .map((each) => valueObject(evaluation, each)),
    unavailable: slots
      .filter((each) => isLacking(stateOf(evaluation, each)))
      .map((each) => lackObject(evaluation, each)),
    windows: windows.filter(({ applies }) => applies).map((each) => windowObject(evaluation, each)),
  };
  return `${jsonText(sheet, 2)}\n`;
}

/** A value in one case, or of the whole file. */
interface Slot {
  readonly node: NetworkNode;
  readonly caseIndex: number;
}

function slotsOf({ network, caseCount }: Evaluation, id: string): readonly Slot[] {
  const node = network.byId.get(id);
  if (node === undefined) return [];
  // Without any case, a value per case is said to lack them, once.
  const times = node.perCase ? Math.max(1, caseCount) : 1;
  return Array.from({ length: times }, (_, caseIndex) => ({ node, caseIndex }));
}

function stateOf(evaluation: Evaluation, { node, caseIndex }: Slot): State {
  return evaluation.state(node, caseIndex);
}

function isLacking(state: State): boolean {
  return state === State.missing || state === State.none;
}

function caseOf(evaluation: Evaluation, { node, caseIndex }: Slot): string | null {
  return node.perCase && evaluation.caseCount > 0 ? evaluation.caseName(caseIndex) : null;
}

function valueObject(evaluation: Evaluation, slot: Slot) {
  const { node, caseIndex } = slot;
  const { id, title, kind } = node.declaration;
  const method = evaluation.methodOf(node, caseIndex)?.method;
  const deciding = node.perCase ? undefined : evaluation.bindingCase(node);
  return {
    id,
    title,
    case: caseOf(evaluation, slot),
    supply: evaluation.supply(node, caseIndex),
    decidedBy: deciding === undefined ? undefined : evaluation.caseName(deciding),
    number: evaluation.numberOf(node, caseIndex),
    unit: unitOf(kind),
    formula: method?.formula,
    source: method?.source,
    assumes: method?.assumes,
    inputs: explainInputs(evaluation, node, caseIndex).map(inputObject),
  };
}

function inputObject({ name, id, key, number, text, kind, assumed }: ExplainedInput) {
  const unit = number === undefined ? undefined : unitOf(kind);
  return { name, id, key, number, unit, text, default: assumed !== undefined, assumed };
}

function lackObject(evaluation: Evaluation, slot: Slot) {
  const { node, caseIndex } = slot;
  const isSolvable = evaluation.state(node, caseIndex) !== State.none;
  return {
    id: node.declaration.id,
    title: node.declaration.title,
    case: caseOf(evaluation, slot),
    missing: isSolvable ? missingEntries(evaluation, node, caseIndex) : [],
    reason: isSolvable ? undefined : evaluation.methodOf(node, caseIndex)?.method.without,
  };
}

function windowObject(evaluation: Evaluation, reading: WindowReading) {
  const { window, setpoint, recommended, missing } = reading;
  const side = (wanted: string) =>
    reading.bounds
      .filter(({ bound, number }) => bound.side === wanted && Number.isFinite(number))
      .map((each) => boundObject(evaluation, each));
  return {
    setpoint: window.setpoint,
    title: window.title,
    value: setpoint ?? null,
    unit: unitOf(window.kind),
    missing,
    lower: side('lower'),
    upper: side('upper'),
    recommended: recommended ?? null,
    recommendedAs: recommended === undefined ? undefined : window.choice?.(evaluation, recommended)?.words,
    rule: window.recommendation?.rule,
    margin: marginOf(reading),
  };
}

function boundObject(evaluation: Evaluation, { bound, number, caseIndex, missing }: BoundReading) {
  return {
    id: bound.id,
    number,
    hard: bound.hard,
    reason: `${bound.limitName}; beyond it ${bound.consequence}`,
    source: bound.check.source,
    case: caseIndex === undefined ? null : evaluation.caseName(caseIndex),
    missing,
  };
}

/** Distance to the nearest hard bound; below zero beyond it. */
function marginOf({ setpoint, bounds }: WindowReading): number | null {
  if (setpoint === undefined) return null;
  const hard = bounds.filter(({ bound, number }) => bound.hard && Number.isFinite(number));
  return hard.length === 0 ? null : Math.min(...hard.map((each) => insideBy(each, setpoint)));
}

function unitOf(kind: string): string {
  return kindNamed(kind)?.internal ?? '';
}
