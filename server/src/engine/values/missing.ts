import { stepsOf } from '../syntax/tree.ts';
import type { Source } from './declare.ts';
import { type Evaluation, State, verdictOf } from './evaluation.ts';
import type { NetworkNode } from './network.ts';
import { type CompiledInput, LACKING } from './readers.ts';
import { cellOf } from './rows.ts';

/** Why inputs are not all there: the entries that are absent or unreadable, and values that have no solution. */
export function missingInputs(
  evaluation: Evaluation,
  inputs: readonly CompiledInput[],
  caseIndex: number,
): readonly string[] {
  const lacking = inputs.filter((input) => input.read(evaluation, caseIndex) === LACKING);
  return unique(lacking.flatMap((input) => missingSource(evaluation, input.source, caseIndex)));
}

/** The entries that keep a value from being available in a case; empty if it is available or does not apply. */
export function missingEntries(evaluation: Evaluation, node: NetworkNode, caseIndex: number): readonly string[] {
  const state = evaluation.state(node, caseIndex);
  if (state === State.none) return [node.declaration.id];
  if (state !== State.missing) return [];
  if (evaluation.broken.has(node.declaration.id)) return [node.declaration.id];
  if (node.perCase && evaluation.caseCount === 0) return ['operation.cases'];
  const compiled = evaluation.methodOf(node, caseIndex);
  if (compiled === undefined) return [];
  if (verdictOf(evaluation, compiled, caseIndex) === 'lacking') {
    return compiled.conditions
      .filter(({ test }) => test(evaluation, caseIndex) === 'lacking')
      .map(({ condition }) => ('path' in condition ? condition.path : ''));
  }
  return missingInputs(evaluation, compiled.inputs, caseIndex);
}

function missingSource(evaluation: Evaluation, source: Source, caseIndex: number): readonly string[] {
  switch (source.from) {
    case 'entry':
    case 'text':
      return [source.path === '' ? casePath(caseIndex, source.inCase ?? '') : pathAsked(evaluation, source, caseIndex)];
    case 'case':
      return [casePath(caseIndex, source.key)];
    case 'value':
      return missingValue(evaluation, source.id, caseIndex);
    case 'each':
      return evaluation.installation.caseNodes.length === 0
        ? ['operation.cases']
        : evaluation.installation.caseNodes.flatMap((_, at) => missingValue(evaluation, source.id, at));
    case 'rows':
      return missingCells(evaluation, source.path, source.columns);
    default:
      return [];
  }
}

/** An entry that the case overrides with something unreadable is missing there, not in the general place. */
function pathAsked(
  evaluation: Evaluation,
  source: { readonly path: string; readonly inCase: string | undefined },
  caseIndex: number,
): string {
  const inCase = source.inCase !== undefined && evaluation.caseHas(caseIndex, source.inCase);
  return inCase ? casePath(caseIndex, source.inCase ?? '') : source.path;
}

function casePath(caseIndex: number, key: string): string {
  return `operation.cases[${caseIndex}].${key}`;
}

function missingValue(evaluation: Evaluation, id: string, caseIndex: number): readonly string[] {
  const node = evaluation.network.byId.get(id);
  if (node === undefined) return [];
  // What does not apply has no entry that would bring it; the value itself is all there is to name.
  if (evaluation.state(node, caseIndex) === State.notApplicable) return [id];
  return missingEntries(evaluation, node, caseIndex);
}

function missingCells(
  evaluation: Evaluation,
  path: string,
  columns: Readonly<Record<string, string>>,
): readonly string[] {
  const nodes = evaluation.rowNodes(path, stepsOf(path)) ?? [];
  if (nodes.length === 0) return [path];
  const required = Object.entries(columns).filter(([, column]) => !column.endsWith('?'));
  return required.flatMap(([name, column]) => {
    const lacking = nodes.filter((row) => !hasCell(evaluation, row, name, column));
    // A column that no row has is one thing missing, not as many as there are rows.
    if (lacking.length === nodes.length && nodes.length > 1) return [`${path}[].${name}`];
    return lacking.map((row) => `${row.document.tree.path(row.node) || path}.${name}`);
  });
}

function hasCell(evaluation: Evaluation, row: Parameters<typeof cellOf>[1], name: string, column: string): boolean {
  const located = cellOf(evaluation.installation, row, name);
  if (located === undefined) return false;
  return column.startsWith('text') || Number.isFinite(evaluation.installation.number(located));
}

function unique(paths: readonly string[]): readonly string[] {
  return [...new Set(paths)];
}
