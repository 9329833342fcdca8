import { FLOWING_CASE } from '../../values/conditions.ts';
import { entry, limit, value } from '../../values/declare.ts';
import { AT_OWN_PACE, pacingKey } from '../case-keys.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check } from '../declare.ts';
import { timesOf } from '../share.ts';
import { atLeast, atMost, type Limited } from '../within.ts';

const TARGET = 'operation.target_rate';
const WHEN = [FLOWING_CASE, ...AT_OWN_PACE];
const NEEDS = { rate: value('pump.surface_rate'), target: entry(TARGET) };

function compared(context: CheckContext, rate: number, target: number, share: number, mend: string): Limited {
  return {
    key: TARGET,
    kind: 'volume_rate',
    number: rate,
    limit: target * share,
    says: (own) =>
      `In the case '${context.caseName}' the pump brings ${own} to the surface, ${timesOf(context, rate / target)} the target of ${context.show(target, 'volume_rate', TARGET)}; ${context.show(share, 'ratio')} is the limit. ${mend}`,
    related: [{ key: pacingKey(context), message: 'how fast it runs' }],
  };
}

export const PUMP_SHORT_OF_TARGET: Check = check({
  id: 'pump.short-of-target',
  severity: 'warning',
  title: 'the pump falls short of the target',
  compares: 'the rate at the surface in the flowing cases at the operation’s own pace with 95 % of the target',
  why: 'The well will not make its target as it is set.',
  mend: 'Raise frequency or stroke within the limits, or lower the target.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { 'operation.stroke.rate': '4.5 /min' }, at: TARGET },
  when: WHEN,
  needs: { ...NEEDS, least: limit('pump.short-of-target') },
  run: ({ rate, target, least }, context) =>
    atLeast(context, compared(context, rate, target, least, 'Run it faster or longer, or lower the target.')),
});

export const PUMP_ABOVE_TARGET: Check = check({
  id: 'pump.above-target',
  severity: 'note',
  title: 'the pump exceeds the target',
  compares: 'the rate at the surface in the flowing cases at the operation’s own pace with 110 % of the target',
  why: 'The well is drawn down further than was meant, and pumps off sooner.',
  mend: 'Lower frequency or stroke, or raise the target.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TARGET]: '10 m3/d' }, at: TARGET },
  when: WHEN,
  needs: { ...NEEDS, most: limit('pump.above-target') },
  run: ({ rate, target, most }, context) =>
    atMost(context, compared(context, rate, target, most, 'Run it slower or shorter, or raise the target.')),
});
