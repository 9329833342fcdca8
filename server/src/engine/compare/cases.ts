import type { Evaluation } from '../values/evaluation.ts';
import type { NetworkNode } from '../values/network.ts';

/** A case of operation that both sides have, by its name. */
export interface CasePair {
  readonly name: string | undefined;
  readonly before: number;
  readonly after: number;
}

/** What holds for the whole file has no case. */
const WHOLE_FILE: readonly CasePair[] = [{ name: undefined, before: 0, after: 0 }];

/** The cases in which a value is compared. */
export function casesOf(node: NetworkNode, before: Evaluation, after: Evaluation): readonly CasePair[] {
  return node.perCase ? pairCases(before, after) : WHOLE_FILE;
}

/** Of cases with one name the first is meant, as everywhere. */
function pairCases(before: Evaluation, after: Evaluation): readonly CasePair[] {
  const old = namesOf(before);
  return namesOf(after).flatMap((name, at, all) => {
    const found = old.indexOf(name);
    return found < 0 || all.indexOf(name) !== at ? [] : [{ name, before: found, after: at }];
  });
}

function namesOf(evaluation: Evaluation): readonly string[] {
  return Array.from({ length: evaluation.caseCount }, (_, at) => evaluation.caseName(at));
}
