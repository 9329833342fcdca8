import type { CheckContext } from './context.ts';

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
