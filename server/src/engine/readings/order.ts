import type { Step } from '../checklist/step.ts';
import { HOLD_LATE, HOLD_UNSIGNED, MISSING } from '../checks/readings/accepted.ts';
import type { VisitCheck, VisitFinding } from './declare.ts';
import { isTimed, momentOf } from './moments.ts';
import type { PlacedStep, Row, Visit } from './visit.ts';

export const ORDER_CHECKS: readonly VisitCheck[] = [
  { check: HOLD_UNSIGNED, judge: unsignedHolds },
  { check: HOLD_LATE, judge: lateHolds },
  { check: MISSING, judge: missingItems },
];

function holds(visit: Visit): readonly PlacedStep[] {
  return [...visit.steps.values()].filter(({ step }) => step.kind === 'hold');
}

/** A hold without a signature is open as long as nothing after it was done; then it was walked past. */
function unsignedHolds(visit: Visit): readonly VisitFinding[] {
  return holds(visit).flatMap(({ step, order }) => {
    const next = walkedPast(visit, { step, order });
    if (next === undefined) return [];
    const row = visit.row(step.id);
    return [
      {
        at: row === undefined ? 'readings' : row.key,
        message: `The hold point '${step.id}' has no signature, and work went on with '${next.step.id}'. Enter in 'by' who released it; if nobody did, stop and go through what stands before it.`,
      },
    ];
  });
}

/** The first step that was answered after a hold point without a signature. */
function walkedPast(visit: Visit, { step, order }: PlacedStep): PlacedStep | undefined {
  if (step.kind !== 'hold' || visit.isAnswered(step)) return undefined;
  return [...visit.steps.values()].find((each) => each.order > order && visit.isAnswered(each.step));
}

function lateHolds(visit: Visit): readonly VisitFinding[] {
  return holds(visit).flatMap(({ step, order }) => {
    const row = visit.row(step.id);
    const signed = momentOf(row?.at);
    if (row === undefined || signed === undefined) return [];
    const before = visit.rows.find((each) => isAfter(each, order) && isEarlier(each, row));
    if (before === undefined) return [];
    const isSure = signed.hasDate && momentOf(before.at)?.hasDate === true;
    return [
      {
        at: `${row.key}.at`,
        severity: isSure ? undefined : 'warning',
        message: `The hold point '${step.id}' was signed at ${row.at}, after '${before.item}' at ${before.at}, which it holds. Put the time right, or write down why the work went on.`,
      },
    ];
  });
}

function isAfter({ placed }: Row, order: number): boolean {
  return placed !== undefined && placed.order > order;
}

/** Times of the day alone are compared with times of the day alone. */
function isEarlier(each: Row, hold: Row): boolean {
  const [own, signed] = [momentOf(each.at), momentOf(hold.at)];
  if (own === undefined || signed === undefined || own.hasDate !== signed.hasDate) return false;
  return isTimed(own) && isTimed(signed) && own.minutes < signed.minutes;
}

const MOST_NAMED = 6;

/** One finding for all of them: what has to be there is named, the rest counted. */
function missingItems(visit: Visit): readonly VisitFinding[] {
  // A hold that was walked past is an error already.
  const due = [...visit.steps.values()]
    .filter((placed) => placed.step.kind !== 'caution' && walkedPast(visit, placed) === undefined)
    .map(({ step }) => step);
  const open = due.filter((step) => !visit.isAnswered(step) && !isExcused(visit, step));
  const partial = due.filter((step) => isPartial(visit, step));
  const missing = [...open, ...partial];
  if (missing.length === 0) return [];
  // Signatures first: without them the rest was not released.
  const required = missing.filter(isRequired).sort((a, b) => Number(b.kind === 'hold') - Number(a.kind === 'hold'));
  const named = required.slice(0, MOST_NAMED).map(({ id }) => `'${id}'`);
  const rest = required.length > MOST_NAMED ? ` and ${required.length - MOST_NAMED} more` : '';
  const which = required.length === 0 ? '' : ` Among them are required: ${named.join(', ')}${rest}.`;
  return [
    {
      at: 'readings',
      severity: missing.every(isOptional) ? 'note' : undefined,
      message: `${missing.length} of ${due.length} items of the checklist ${missing.length === 1 ? 'has' : 'have'} no answer${partial.length > 0 ? ', or not all of it' : ''}.${which} Enter what was done, and for what was not a note that says why.`,
      value: { number: missing.length, unit: '' },
    },
  ];
}

/** Nobody needs to answer what a note explains. */
function isExcused(visit: Visit, { id, kind }: Step): boolean {
  return kind !== 'hold' && visit.row(id)?.note !== undefined;
}

/** Three phases belong together; of other series what was read is what could be. */
function isPartial(visit: Visit, { id, unbalanceMax, fields = [] }: Step): boolean {
  const row = visit.row(id);
  const written = row?.entries.filter(({ text }) => text !== '').length ?? 0;
  return unbalanceMax !== undefined && row?.note === undefined && written > 0 && written < fields.length;
}

function isRequired(step: Step): boolean {
  return step.kind === 'hold' || (step.limit !== undefined && !isOptional(step));
}

/** Cases that the visit did not come to, and the log of a day that is not over. */
function isOptional({ id }: Step): boolean {
  return /^start\.(case|log)\./.test(id);
}
