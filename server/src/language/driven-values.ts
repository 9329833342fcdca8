import { type Evaluation, NETWORK, type NetworkNode, type Source, State } from '../engine/index.ts';

/** Values by the entries that they are computed from; list indices are left out of the keys. */
const BY_ENTRY = indexByEntry();

/** The form of a dotted key under which values are found: `operation.cases[1].intake` is `operation.cases.intake`. */
export function withoutIndices(key: string): string {
  return key.replace(/\[\d+\]/g, '');
}

/** The values that an entry drives directly in this installation, in the order of the handbook. */
export function valuesDrivenBy(evaluation: Evaluation, key: string): readonly NetworkNode[] {
  const candidates = BY_ENTRY.get(withoutIndices(key)) ?? [];
  return candidates.filter((node) => caseIndices(evaluation, node).some((at) => isUsed(evaluation, node, at, key)));
}

/** The cases that a value is computed in; one for a value of the whole file. */
export function caseIndices(evaluation: Evaluation, node: NetworkNode): readonly number[] {
  return node.perCase ? evaluation.installation.caseNodes.map((_, at) => at) : [0];
}

/** Whether the method that gave the value in a case reads the entry. */
function isUsed(evaluation: Evaluation, node: NetworkNode, caseIndex: number, key: string): boolean {
  if (evaluation.state(node, caseIndex) !== State.available) return false;
  const method = evaluation.methodOf(node, caseIndex);
  return method?.inputs.some(({ source }) => keysOf(source).includes(withoutIndices(key))) ?? false;
}

function indexByEntry(): ReadonlyMap<string, readonly NetworkNode[]> {
  const index = new Map<string, NetworkNode[]>();
  // A bound is shown with its window, not among the values.
  for (const node of NETWORK.nodes.filter(({ declaration }) => !declaration.id.startsWith('bound:'))) {
    const sources = node.methods.flatMap(({ inputs }) => inputs.map(({ source }) => source));
    for (const key of new Set(sources.flatMap(keysOf))) index.set(key, [...(index.get(key) ?? []), node]);
  }
  return index;
}

function keysOf(source: Source): readonly string[] {
  switch (source.from) {
    case 'entry':
    case 'text':
      return [
        ...(source.path === '' ? [] : [source.path]),
        ...(source.inCase === undefined ? [] : [`operation.cases.${source.inCase}`]),
      ];
    case 'case':
    case 'each-text':
      return [`operation.cases.${source.key}`];
    case 'rows':
      return [source.path, ...Object.keys(source.columns).map((column) => `${source.path}.${column}`)];
    default:
      return [];
  }
}
