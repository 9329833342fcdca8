import { NETWORK } from '../../server/src/engine/checks/engine.ts';
import type { Installation } from '../../server/src/engine/links/installation.ts';
import { Evaluation, verdictOf } from '../../server/src/engine/values/evaluation.ts';
import { LimitTable } from '../../server/src/engine/values/limits.ts';
import type { CompiledMethod, NetworkNode } from '../../server/src/engine/values/network.ts';
import { shown } from '../support/numbers.ts';

/** A value in a case of a well, by numbers alone: a bundle started again has evaluations and nodes of its own. */
export interface Instance {
  readonly id: string;
  readonly method: number;
  readonly well: number;
  readonly caseIndex: number;
}

interface Kept {
  readonly numbers: Map<string, string>;
  wells: readonly Installation[];
  instances?: ReadonlyMap<string, Instance>;
}

declare global {
  /** Outlives the bundle, which is started again for a change of what is computed while it starts. */
  var $kept: Kept | undefined;
  /** See switches.mjs. */
  var $mutation: { readonly aside: <T>(run: () => T) => T };
}

globalThis.$kept ??= { numbers: new Map(), wells: [] };
const KEPT: Kept = globalThis.$kept;
const LIMITS = new LimitTable();
const evaluations = new Map<number, Evaluation>();

/** Each value with each set of inputs that it gets in these wells, once; the same for every start of the bundle. */
export function instancesIn(wells: () => readonly Installation[]): ReadonlyMap<string, Instance> {
  KEPT.instances ??= globalThis.$mutation.aside(() => {
    KEPT.wells = wells();
    return instances();
  });
  return KEPT.instances;
}

function instances(): ReadonlyMap<string, Instance> {
  const found = new Map<string, Instance>();
  for (let well = 0; well < KEPT.wells.length; well++) {
    for (const instance of NETWORK.nodes.flatMap((node) => instancesOf(node, well))) {
      const key = JSON.stringify([instance.id, instance.method, inputsOf(instance)]);
      if (!found.has(key)) found.set(key, instance);
    }
  }
  return found;
}

function instancesOf({ declaration: { id }, methods, perCase }: NetworkNode, well: number): Instance[] {
  const cases = Array.from({ length: perCase ? evaluationOf(well).caseCount : 1 }, (_, caseIndex) => caseIndex);
  return methods.flatMap((_, method) => cases.map((caseIndex) => ({ id, method, well, caseIndex })));
}

function evaluationOf(well: number): Evaluation {
  const known = evaluations.get(well) ?? new Evaluation(KEPT.wells[well] as Installation, NETWORK, LIMITS);
  evaluations.set(well, known);
  return known;
}

function compiledOf({ id, method }: Instance): CompiledMethod {
  const compiled = NETWORK.byId.get(id)?.methods[method];
  if (compiled === undefined) throw new Error(`no value is declared as '${id}'`);
  return compiled;
}

/** What a method rests on; undefined where something lacks. */
function inputsOf(instance: Instance) {
  const { well, caseIndex } = instance;
  const evaluation = evaluationOf(well);
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
  const usual = KEPT.numbers.get(name);
  KEPT.numbers.set(name, usual ?? numbers);
  if (usual !== undefined && usual !== numbers) throw new Error('other numbers than usual');
}
