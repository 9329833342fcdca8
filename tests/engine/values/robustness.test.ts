import { describe, expect, it } from 'vitest';
import { INTERNAL, missingEntries, State } from '../../../server/src/engine/index.ts';
import { type Leaf, leavesOf, withNumber } from '../../support/leaves.ts';
import { checked, edited, LINEAR, type Project, ROTARY } from './project.ts';

const MUTATIONS: Readonly<Record<string, (leaf: Leaf) => { readonly text: string | undefined } | undefined>> = {
  'taken out': () => ({ text: undefined }),
  'set to zero': (leaf) => mutated(withNumber(leaf, () => 0)),
  negated: (leaf) => mutated(withNumber(leaf, (number) => -number)),
  'times a thousand': (leaf) => mutated(withNumber(leaf, (number) => 1000 * number)),
};

function mutated(text: string | undefined) {
  return text === undefined ? undefined : { text };
}

/** What is wrong with the values of a project, in words. */
function faultsOf(project: Project): readonly string[] {
  const file = checked(project);
  const broken = file.findings.filter(({ check }) => check === INTERNAL).map(({ message }) => message);
  const odd = file.findings.filter(({ message }) => /\bNaN\b|Infinity|undefined/.test(message));
  broken.push(...odd.map(({ check, message }) => `${check}: ${message}`));
  const evaluation = file.worked?.evaluation;
  if (evaluation === undefined) return [...broken, 'nothing was worked out'];
  const faults = evaluation.network.nodes.flatMap((node) =>
    Array.from({ length: node.perCase ? Math.max(1, evaluation.caseCount) : 1 }, (_, at) => {
      const state = evaluation.state(node, at);
      const { id } = node.declaration;
      if (state === State.available)
        return Number.isFinite(evaluation.numberOf(node, at)) ? [] : [`${id} is not finite`];
      if (state === State.notApplicable) return [];
      const named = missingEntries(evaluation, node, at);
      return named.length > 0 && named.every((each) => each !== '') ? [] : [`${id} does not say what it lacks`];
    }).flat(),
  );
  return [...broken, ...faults];
}

describe.each([
  ['linear', LINEAR],
  ['rotary', ROTARY],
] as const)('a full %s project', (_, project) => {
  it('has values without a fault', () => {
    expect(leavesOf(project).length).toBeGreaterThan(100);
    expect(faultsOf(project)).toEqual([]);
  });

  it.each(Object.entries(MUTATIONS))('bears every entry %s', (_name, mutate) => {
    const faults: Record<string, readonly string[]> = {};
    for (const leaf of leavesOf(project)) {
      const mutation = mutate(leaf);
      if (mutation === undefined) continue;
      const found = faultsOf(edited(project, { [leaf.place]: mutation.text }));
      if (found.length > 0) faults[leaf.place] = found;
    }
    expect(faults).toEqual({});
  });
});
