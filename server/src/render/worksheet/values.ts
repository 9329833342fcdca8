import {
  bindingLimit,
  CheckContext,
  type Evaluation,
  type ExplainedInput,
  explainInputs,
  formatMeasure,
  HANDBOOK,
  KINDS,
  missingEntries,
  type NetworkNode,
  State,
} from '../../engine/index.ts';

/** A worked value in one case, or of the whole file, with all that it rests on. */
export interface ValueRow {
  readonly id: string;
  readonly title: string;
  readonly caseIndex: number | undefined;
  /** In the internal unit of its kind, unrounded. */
  readonly number: number;
  readonly kind: string;
  /** In the author's units. */
  readonly shown: string;
  readonly formula: string;
  readonly source: string;
  /** What the method assumes in place of a better one. */
  readonly assumes: string | undefined;
  /** What decided it: the end of the supply, the case, the limit. */
  readonly decidedBy: string | undefined;
  readonly inputs: readonly InputRow[];
}

export interface InputRow {
  /** Name as the declaration has it. */
  readonly name: string;
  /** Id of another value or name of a limit. */
  readonly id: string | undefined;
  readonly shown: string;
  readonly key: string | undefined;
  /** Where the entry stands: path, and line counted from 1. */
  readonly place: { readonly path: string; readonly line: number } | undefined;
  /** Why there is a number although nothing is entered. */
  readonly assumed: string | undefined;
}

/** A value that could not be worked out, and why. */
export interface UnavailableRow {
  readonly id: string;
  readonly title: string;
  readonly caseIndex: number | undefined;
  /** The entries that are missing; empty if all are there and there is no such number. */
  readonly missing: readonly string[];
  /** The reason in words. */
  readonly reason: string;
}

/** The values of one case, or those of the whole file. */
export interface ValueSheet {
  readonly caseIndex: number | undefined;
  readonly rows: readonly ValueRow[];
  readonly unavailable: readonly UnavailableRow[];
  /** Ids of the values that do not concern this lift, motor or case. */
  readonly notConcerned: readonly string[];
}

/** The values that hold for the whole file, from the well to the supply. */
export function fileValues(evaluation: Evaluation): ValueSheet {
  return sheetOf(evaluation, undefined);
}

export function caseValues(evaluation: Evaluation, caseIndex: number): ValueSheet {
  return sheetOf(evaluation, caseIndex);
}

function sheetOf(evaluation: Evaluation, caseIndex: number | undefined): ValueSheet {
  const rows: ValueRow[] = [];
  const unavailable: UnavailableRow[] = [];
  const notConcerned: string[] = [];
  for (const { id } of HANDBOOK) {
    const node = evaluation.network.byId.get(id);
    if (node === undefined || node.perCase !== (caseIndex !== undefined)) continue;
    const state = evaluation.state(node, caseIndex ?? 0);
    if (state === State.available) rows.push(rowOf(evaluation, node, caseIndex));
    else if (state === State.notApplicable) notConcerned.push(id);
    else unavailable.push(unavailableOf(evaluation, node, caseIndex));
  }
  return { caseIndex, rows, unavailable, notConcerned };
}

function rowOf(evaluation: Evaluation, node: NetworkNode, caseIndex: number | undefined): ValueRow {
  const at = caseIndex ?? 0;
  const { id, title, kind } = node.declaration;
  const number = evaluation.numberOf(node, at) ?? Number.NaN;
  const method = evaluation.methodOf(node, at)?.method;
  return {
    ...{ id, title, caseIndex, number, kind },
    shown: shownOf(evaluation, { id, kind, number, at }),
    formula: method?.formula ?? '',
    source: method?.source ?? '',
    assumes: method?.assumes,
    decidedBy: decidedBy(evaluation, node, caseIndex),
    inputs: explainInputs(evaluation, node, at).map((input) => inputRow(evaluation, input, at)),
  };
}

/** A computed number as its reader writes such numbers; `at` is the index of its case. */
export function shownOf(
  evaluation: Evaluation,
  {
    id,
    kind,
    number,
    at,
  }: { readonly id: string; readonly kind: string; readonly number: number; readonly at: number },
): string {
  const context = new CheckContext(evaluation, at, '');
  // On a gauge the surrounding air is nothing, in whatever unit: only its absolute pressure tells something.
  if (id === 'site.atmosphere') {
    return formatMeasure(number, KINDS.pressure, context.unrounded(number, kind).unit, 'absolute');
  }
  return context.show(number, kind);
}

function decidedBy(evaluation: Evaluation, node: NetworkNode, caseIndex: number | undefined): string | undefined {
  const supply = evaluation.supply(node, caseIndex ?? 0);
  const binding = bindingLimit(evaluation, node, caseIndex ?? 0);
  const deciding = caseIndex === undefined ? evaluation.bindingCase(node) : undefined;
  const parts = [
    supply === undefined ? '' : `at the ${supply} end of the supply`,
    deciding === undefined ? '' : `set by the case '${evaluation.caseName(deciding)}'`,
    binding === undefined ? '' : `bound by ${binding}`,
  ].filter((part) => part !== '');
  return parts.length === 0 ? undefined : parts.join(', ');
}

function inputRow(evaluation: Evaluation, input: ExplainedInput, at: number): InputRow {
  const { name, id, key, assumed, located } = input;
  return { name, id, key, assumed, shown: inputText(evaluation, input, at), place: located && placeOf(located) };
}

function placeOf({ document, node }: NonNullable<ExplainedInput['located']>): InputRow['place'] {
  const { line } = document.source.positionAt(document.tree.keySpan(node).start);
  return { path: document.path, line: line + 1 };
}

function inputText(evaluation: Evaluation, { id, key, number, text, kind }: ExplainedInput, at: number): string {
  const context = new CheckContext(evaluation, at, '');
  if (number !== undefined) return context.show(number, kind, key);
  const node = id === undefined ? undefined : evaluation.network.byId.get(id);
  return node === undefined ? (text ?? '') : eachShown(evaluation, node, context);
}

/** A value that is taken from every case at once. */
function eachShown(evaluation: Evaluation, node: NetworkNode, context: CheckContext): string {
  const shown = Array.from({ length: evaluation.caseCount }, (_, at) => {
    const number = evaluation.numberOf(node, at);
    return number === undefined ? 'none' : context.show(number, node.declaration.kind);
  });
  return shown.join(', ');
}

function unavailableOf(evaluation: Evaluation, node: NetworkNode, caseIndex: number | undefined): UnavailableRow {
  const at = caseIndex ?? 0;
  const { id, title } = node.declaration;
  if (evaluation.state(node, at) === State.none) {
    const without = evaluation.methodOf(node, at)?.method.without ?? '';
    return { id, title, caseIndex, missing: [], reason: `There is no such number: ${without}.` };
  }
  const missing = missingEntries(evaluation, node, at);
  return { id, title, caseIndex, missing, reason: `Lacks ${missing.join(', ')}.` };
}
