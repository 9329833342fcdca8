import { SHAPES } from '../format/generated/shapes.ts';
import type { Shape } from '../format/shape.ts';
import type { Located } from '../links/installation.ts';
import { stepsOf } from '../syntax/tree.ts';
import type { Outcome, Source } from './declare.ts';
import { type Evaluation, State } from './evaluation.ts';
import { LIMITS } from './limits.ts';
import type { NetworkNode } from './network.ts';
import { LACKING } from './readers.ts';

/** One input of a computed value, with where it came from. */
export interface ExplainedInput {
  /** Name in the formula. */
  readonly name: string;
  /** Id of another value, or dotted key of an entry. */
  readonly id: string | undefined;
  readonly key: string | undefined;
  /** In the internal unit; undefined for texts and lists. */
  readonly number: number | undefined;
  /** A text or a list in words. */
  readonly text: string | undefined;
  /** Kind of the quantity, for its unit. */
  readonly kind: string;
  /** What it stands on if the entry is absent. */
  readonly assumed: string | undefined;
  readonly located: Located | undefined;
}

/** The inputs of a value as they stood when it was computed. */
export function explainInputs(evaluation: Evaluation, node: NetworkNode, caseIndex: number): readonly ExplainedInput[] {
  const compiled = evaluation.methodOf(node, caseIndex);
  if (compiled === undefined) return [];
  return compiled.inputs.flatMap(({ name, source, read }) => {
    const seen = read(evaluation, caseIndex);
    if (seen === undefined || seen === LACKING) return [];
    return [explainOne(evaluation, { name, source, seen }, caseIndex)];
  });
}

function explainOne(
  evaluation: Evaluation,
  { name, source, seen }: { readonly name: string; readonly source: Source; readonly seen: unknown },
  caseIndex: number,
): ExplainedInput {
  const key = keyOf(evaluation, source, caseIndex);
  const located = key === undefined ? undefined : evaluation.locate(key);
  return {
    name,
    id: 'id' in source ? source.id : source.from === 'limit' ? source.name : undefined,
    key,
    number: typeof seen === 'number' ? seen : undefined,
    text: typeof seen === 'number' ? undefined : textOf(seen),
    kind: kindOf(evaluation, source, located),
    assumed: located === undefined ? assumptionOf(source) : undefined,
    located,
  };
}

function keyOf(evaluation: Evaluation, source: Source, caseIndex: number): string | undefined {
  if (source.from === 'case') return `operation.cases[${caseIndex}].${source.key}`;
  if (source.from === 'entry' || source.from === 'text') {
    const overridden = source.inCase !== undefined && evaluation.caseHas(caseIndex, source.inCase);
    return overridden || source.path === '' ? `operation.cases[${caseIndex}].${source.inCase}` : source.path;
  }
  if (source.from === 'each-text') return 'operation.cases';
  return source.from === 'rows' || source.from === 'presence' ? source.path : undefined;
}

function assumptionOf(source: Source): string | undefined {
  if (source.from === 'entry') return source.assumed?.source;
  return source.from === 'text' && source.assumed !== undefined
    ? `'${source.assumed}' where none is entered`
    : undefined;
}

function kindOf(evaluation: Evaluation, source: Source, located: Located | undefined): string {
  if (source.from === 'limit') return LIMITS.find(({ name }) => name === source.name)?.kind ?? 'any';
  if ('id' in source) return evaluation.network.byId.get(source.id)?.declaration.kind ?? 'any';
  const quantity = located === undefined ? undefined : located.document.quantities[located.node];
  return quantity?.kind.name ?? kindOfAbsent(source) ?? 'any';
}

/** What would stand at an entry that is not there: a default in its place has the same unit. */
function kindOfAbsent(source: Source): string | undefined {
  if (source.from !== 'entry') return undefined;
  let shape: Shape | undefined = SHAPES.installation;
  for (const step of stepsOf(source.path)) {
    shape = typeof step === 'number' ? shape?.item : (shape?.keys ?? shape?.item?.keys)?.[step];
  }
  return shape?.quantity?.kind;
}

/** Which of several limits decided a value, in words: computed again, since the number keeps none of it. */
export function bindingLimit(evaluation: Evaluation, node: NetworkNode, caseIndex: number): string | undefined {
  const compiled = evaluation.methodOf(node, caseIndex);
  if (compiled === undefined || evaluation.state(node, caseIndex) !== State.available) return undefined;
  const seen = evaluation.gather(compiled.inputs, caseIndex);
  const result = (compiled.method.compute as (seen: unknown) => number | Outcome)(seen);
  return typeof result === 'number' ? undefined : result.binding;
}

function textOf(seen: unknown): string {
  if (typeof seen === 'string') return seen;
  return Array.isArray(seen) ? `${seen.length} ${seen.length === 1 ? 'row' : 'rows'}` : '';
}

/** Dotted keys of the entries that a value rests on in the end, those nearest to it first. */
export function leafEntries(evaluation: Evaluation, node: NetworkNode, caseIndex: number): readonly string[] {
  const found = new Set<string>();
  const visited = new Set<NetworkNode>();
  let front: readonly NetworkNode[] = [node];
  while (front.length > 0) {
    const next: NetworkNode[] = [];
    for (const each of front) {
      if (visited.has(each) || evaluation.state(each, caseIndex) === State.notApplicable) continue;
      visited.add(each);
      for (const input of explainInputs(evaluation, each, caseIndex)) {
        if (input.key !== undefined && input.located !== undefined) found.add(input.key);
        const below = input.id === undefined ? undefined : evaluation.network.byId.get(input.id);
        if (below !== undefined) next.push(below);
      }
    }
    front = next;
  }
  return [...found];
}
