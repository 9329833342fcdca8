import type { Condition } from '../values/declare.ts';
import type { CheckContext } from './context.ts';

/** A case that is not at the low intake-pressure trip; one that states its pressure names no `intake`. */
export const NOT_AT_THE_TRIP: Condition = { caseKey: 'intake', is: ['static', 'flowing', ''] };
/** A case that runs at the rate or frequency of the operation itself. */
export const AT_OWN_PACE: readonly Condition[] = [
  { caseKey: 'stroke_rate', present: false },
  { caseKey: 'frequency', present: false },
];

/** Where the number stands that holds in this case: in the case itself, or in the general place that it overrides. */
export function keyInCase(context: CheckContext, key: string, general: string): string {
  const { evaluation, caseIndex } = context;
  return evaluation.caseHas(caseIndex, key) ? `operation.cases[${caseIndex}].${key}` : general;
}

/** The entry that says how fast the pump runs in this case. */
export function pacingKey(context: CheckContext): string {
  return context.text('lift') === 'linear'
    ? keyInCase(context, 'stroke_rate', 'operation.stroke.rate')
    : keyInCase(context, 'frequency', 'operation.frequency');
}
