import { type Deviation, isAbout, isApproved, isCurrent } from '../../findings/deviations.ts';
import type { Fix } from '../../findings/finding.ts';
import { placeOfKey } from '../../findings/places.ts';
import { guesser } from '../../format/distance.ts';
import type { Document } from '../../format/document.ts';
import { shorten } from '../../format/kind.ts';
import type { Check } from '../declare.ts';
import type { Outcome } from '../outcome.ts';
import {
  DEVIATION_CHECKS,
  DEVIATION_EXPIRED,
  DEVIATION_NOT_NEEDED,
  DEVIATION_UNAPPROVED,
  DEVIATION_UNKNOWN_CHECK,
} from './texts.ts';

/** What deviations are judged against: all findings of the file, and the ids that can be deviated from. */
export interface DeviationRequest {
  readonly document: Document;
  readonly deviations: readonly Deviation[];
  readonly checks: readonly string[];
  readonly today: string;
}

/** Looks at the deviations of an installation when all other checks have run. */
export function judgeDeviations(request: DeviationRequest, outcome: Outcome): void {
  const guess = guesser(request.checks);
  request.deviations.forEach((deviation, index) => {
    for (const fault of faultsOf(deviation, request, guess, outcome)) report(fault, index, request.document, outcome);
  });
  for (const { id } of DEVIATION_CHECKS) outcome.passed(id, undefined);
}

type Guess = (check: string) => string | undefined;

interface Fault {
  readonly check: Check;
  /** Key within the deviation; empty for all of it. */
  readonly key: string;
  readonly message: string;
  readonly fixes?: readonly Fix[];
}

/** A deviation from nothing known, or by nobody, need not be judged any further. */
function faultsOf(deviation: Deviation, request: DeviationRequest, guess: Guess, outcome: Outcome): readonly Fault[] {
  const { check } = deviation;
  if (check === '') return [];
  if (!request.checks.includes(check)) return [unknownCheck(deviation, request, guess)];
  const faults = [...unapproved(deviation), ...expired(deviation, request.today)];
  return faults.length > 0 ? faults : notNeeded(deviation, outcome);
}

function unknownCheck({ check, node }: Deviation, { document }: DeviationRequest, guess: Guess): Fault {
  const near = guess(check);
  const hint = near === undefined ? "'setproof checks' lists those that there are." : `Was '${near}' meant?`;
  const at = document.tree.child(node, 'check');
  const edits = near === undefined ? [] : [{ path: document.path, span: document.tree.span(at), newText: near }];
  return {
    check: DEVIATION_UNKNOWN_CHECK,
    key: 'check',
    message: `There is no check '${shorten(check)}' that can be deviated from, so this deviation accepts nothing. ${hint}`,
    fixes: near === undefined ? [] : [{ title: `Write '${near}'`, kind: 'mechanical', edits }],
  };
}

function unapproved(deviation: Deviation): readonly Fault[] {
  if (isApproved(deviation)) return [];
  const key = deviation.approvedBy === '' ? 'approved_by' : 'reason';
  const lack = key === 'reason' ? 'gives no reason' : 'does not say who approved it';
  const message = `The deviation from '${deviation.check}' ${lack}, so it accepts nothing. Enter '${key}'.`;
  return [{ check: DEVIATION_UNAPPROVED, key, message }];
}

function expired(deviation: Deviation, today: string): readonly Fault[] {
  if (isCurrent(deviation, today)) return [];
  const { check, until } = deviation;
  const fact = until === '' ? 'has no last day' : `ran until ${shorten(until)}, and today is ${today}`;
  const message = `The deviation from '${check}' ${fact}, so it accepts nothing. Mend what it accepted, or have it approved with a later day.`;
  return [{ check: DEVIATION_EXPIRED, key: 'until', message }];
}

function notNeeded(deviation: Deviation, outcome: Outcome): readonly Fault[] {
  const { check } = deviation;
  if (outcome.findings.some((finding) => isAbout(deviation, finding))) return [];
  const isElsewhere = outcome.findings.some((finding) => finding.check === check);
  // What could not be judged may well be wrong still, and what follows from another finding is named there.
  if (!isElsewhere && outcome.statuses.get(check)?.status !== 'passed') return [];
  const where = isElsewhere ? ' at this key and in this case' : '';
  const message = `The check '${check}' finds nothing${where}, so this deviation is not needed. Take it out.`;
  return [{ check: DEVIATION_NOT_NEEDED, key: '', message }];
}

function report({ check, key, message, fixes = [] }: Fault, index: number, document: Document, outcome: Outcome): void {
  const place = placeOfKey(document, key === '' ? `deviations[${index}]` : `deviations[${index}].${key}`);
  outcome.report({ check: check.id, severity: check.severity, message, place, fixes });
}
