import type { Document } from '../format/document.ts';
import type { NodeIndex } from '../syntax/tree.ts';
import { type Notation, rounded } from './notation.ts';
import type { Stage, StageId, Step, StepKind, StepLimit } from './step.ts';

const GROUP = 'Company steps';

/**
 * The stages with a policy's own steps: at the end of their stage, but before the signature that closes it. Numbers
 * of limits stand in the unit of the step where it is given one.
 */
export function withPolicySteps(
  stages: readonly Stage[],
  policy: Document | undefined,
  notation: Notation,
): readonly Stage[] {
  if (policy === undefined) return stages;
  return stages.map((stage) => ({ ...stage, steps: merged(stage.steps, stepsOf(policy, stage.id, notation)) }));
}

function merged(steps: readonly Step[], own: readonly Step[]): readonly Step[] {
  const last = steps.at(-1);
  return last?.kind === 'hold' ? [...steps.slice(0, -1), ...own, last] : [...steps, ...own];
}

function stepsOf(policy: Document, stage: StageId, notation: Notation): readonly Step[] {
  const { tree } = policy;
  return [...tree.children(tree.find(`steps.${stage}`))].flatMap((node) => stepOf(policy, node, stage, notation) ?? []);
}

const KINDS: readonly string[] = ['do', 'read', 'set', 'hold', 'caution'] satisfies readonly StepKind[];

function stepOf(policy: Document, node: NodeIndex, stage: StageId, notation: Notation): Step | undefined {
  const text = (key: string) => policy.tree.scalar(policy.tree.child(node, key)).trim() || undefined;
  const words = text('text');
  if (words === undefined) return undefined;
  const kind = text('kind') ?? 'do';
  const limit = limitOf(policy, node, notation);
  return {
    id: text('id') ?? `${stage}.company`,
    kind: KINDS.includes(kind) ? (kind as StepKind) : 'do',
    group: text('group') ?? GROUP,
    text: words,
    unit: limit?.unit ?? text('unit'),
    limit: limit?.limit,
    source: text('source') ?? 'policy',
  };
}

function limitOf(
  policy: Document,
  node: NodeIndex,
  notation: Notation,
): { readonly limit: StepLimit; readonly unit: string } | undefined {
  const { tree } = policy;
  const limit = tree.child(node, 'limit');
  const end = (key: string) => {
    const at = tree.child(limit, key);
    return at < 0 ? undefined : notation.ofEntry({ document: policy, node: at });
  };
  const [min, max] = [end('min'), end('max')];
  const unit = (min ?? max)?.unit;
  if (unit === undefined) return undefined;
  return { unit, limit: { min: min && rounded(min.number), max: max && rounded(max.number) } };
}
