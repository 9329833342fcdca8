import type { Document } from '../../format/document.ts';
import type { Neighbours } from '../../links/fleet.ts';
import type { WellFacts } from '../../links/well-facts.ts';
import type { Check } from '../declare.ts';
import type { Outcome } from '../outcome.ts';
import { type AcrossCheck, findingOf } from './declare.ts';
import { DUPLICATE_SERIAL } from './duplicate-serial.ts';
import { DUPLICATE_WELL } from './duplicate-well.ts';
import { HALF_EDITED_COPY } from './half-edited-copy.ts';
import { RESTART_SAME_AS_NEIGHBOUR } from './same-restart.ts';

const ACROSS: readonly AcrossCheck[] = [DUPLICATE_WELL, DUPLICATE_SERIAL, HALF_EDITED_COPY, RESTART_SAME_AS_NEIGHBOUR];

export const ACROSS_CHECKS: readonly Check[] = ACROSS.map(({ check }) => check);

const OTHERS = 'other installations of the repository';

/** Compares an installation with the others that are known. */
export function runAcross(
  document: Document,
  own: WellFacts | undefined,
  neighbours: Neighbours | undefined,
  outcome: Outcome,
): void {
  for (const { check, compare } of ACROSS) {
    if (own === undefined || neighbours === undefined) outcome.notRun(check.id, ['site.well']);
    else if (neighbours.isAlone) outcome.notRun(check.id, [OTHERS]);
    else settle(document, check, compare(own, neighbours), outcome);
  }
}

function settle(document: Document, check: Check, verdict: ReturnType<AcrossCheck['compare']>, outcome: Outcome): void {
  if (verdict === 'not-applicable') outcome.notApplicable(check.id);
  else if ('lacks' in verdict) outcome.notRun(check.id, verdict.lacks);
  else {
    for (const finding of verdict) outcome.report(findingOf(check, finding, document));
    outcome.passed(check.id, undefined);
  }
}
