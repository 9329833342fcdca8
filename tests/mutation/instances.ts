import { NETWORK } from '../../server/src/engine/checks/engine.ts';
import { type Evaluation, verdictOf } from '../../server/src/engine/values/evaluation.ts';
import type { CompiledMethod, NetworkNode } from '../../server/src/engine/values/network.ts';
import { shown } from '../support/numbers.ts';

/** A value in a case of a well, by its place in the network: a bundle started again has nodes of its own. */
export interface Instance {
  readonly id: string;
  readonly method: number;
  readonly evaluation: Evaluation;
  readonly caseIndex: number;
}

declare global {
  /** Outlives the bundle, which is started again for a change of what is computed while it starts. */
  var $kept: { readonly numbers: Map<string, string>; instances?: ReadonlyMap<string, Instance> } | undefined;
}

globalThis.$kept ??= { numbers: new Map() };
const { numbers: KEPT } = globalThis.$kept;

/** The same instances for every start of the bundle. */
export function keptInstances(evaluations: () => readonly Evaluation[]): ReadonlyMap<string, Instance> {
  const kept = globalThis.$kept;
  if (kept === undefined) return instances(evaluations());
  kept.instances ??= instances(evaluations());
  return kept.instances;
}

/** Each value with each set of inputs that it gets in these wells, once. */
function instances(evaluations: readonly Evaluation[]): ReadonlyMap<string, Instance> {
  const found = new Map<string, Instance>();
  for (const evaluation of evaluations) {
    for (const node of NETWORK.nodes) {
      for (const instance of instancesOf(node, evaluation)) {
        const key = JSON.stringify([instance.id, instance.method, inputsOf(instance)]);
        if (!found.has(key)) found.set(key, instance);
      }
    }
  }
  return found;
}

function instancesOf({ declaration: { id }, methods, perCase }: NetworkNode, evaluation: Evaluation): Instance[] {
  const cases = Array.from({ length: perCase ? evaluation.caseCount : 1 }, (_, caseIndex) => caseIndex);
  return methods.flatMap((_, method) => cases.map((caseIndex) => ({ id, method, evaluation, caseIndex })));
}

function compiledOf({ id, method }: Instance): CompiledMethod {
  const compiled = NETWORK.byId.get(id)?.methods[method];
  if (compiled === undefined) throw new Error(`no value is declared as '${id}'`);
  return compiled;
}

/** What a method rests on; undefined where something lacks. */
function inputsOf(instance: Instance) {
  const { evaluation, caseIndex } = instance;
  const compiled = compiledOf(instance);
  const verdict = verdictOf(evaluation, compiled, caseIndex);
  const seen = verdict === 'holds' ? evaluation.gather(compiled.inputs, caseIndex) : undefined;
  return [verdict, seen] as const;
}

export function outcomeOf(instance: Instance): string {
  const [verdict, seen] = inputsOf(instance);
  if (seen === undefined) return verdict;
  const result = (compiledOf(instance).method.compute as (seen: unknown) => number | { readonly number: number })(seen);
  return shown(typeof result === 'number' ? result : result.number);
}

/** Fails where what is called by a name comes to something else than the first time. */
export function compare(name: string, numbers: string): void {
  const usual = KEPT.get(name);
  KEPT.set(name, usual ?? numbers);
  if (usual !== undefined && usual !== numbers) throw new Error('other numbers than usual');
}
