import { formatNumber } from '../../quantity/format.ts';
import { entry, limit, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Offer } from '../declare.ts';

const TARGET = 'operation.target_rate';
const NEEDS = {
  share: value('inflow.target_share'),
  target: entry(TARGET),
  most: value('inflow.max_rate'),
};

function shown(context: CheckContext, rate: number): string {
  return context.show(rate, 'volume_rate', TARGET);
}

function amounts(target: number, most: number) {
  return { value: { number: target, kind: 'volume_rate' }, limit: { number: most, kind: 'volume_rate' } } as const;
}

/** The offer of a target that leaves the well its reserve; three digits, rounded down. */
function lowerTarget(context: CheckContext, most: number, near: number): readonly Offer[] {
  const { number, unit } = context.unrounded(most * near, 'volume_rate', TARGET);
  const step = 10 ** (Math.floor(Math.log10(number)) - 2);
  if (!Number.isFinite(step)) return [];
  const newText = `${formatNumber(Math.floor(number / step) * step)} ${unit}`;
  const title = `Set the target to ${newText}, ${context.show(near, 'ratio')} of what the well gives`;
  return [{ title, kind: 'offer', key: TARGET, newText }];
}

export const INFLOW_TARGET_ABOVE_MAXIMUM: Check = check({
  id: 'inflow.target-above-maximum',
  severity: 'error',
  title: 'target above all that the well gives',
  compares: 'the target rate with the rate of the well at no pressure at all',
  why: 'No pump gets more out of a well than the reservoir gives: the unit pumps off at once.',
  mend: 'Lower the target, or look at productivity index and reservoir pressure with their units.',
  source: 'straight line above the bubble point, Vogel 1968 below',
  example: { lift: 'linear', fails: { [TARGET]: '30 m3/d' }, at: TARGET },
  needs: { ...NEEDS, near: limit('inflow.target-near-maximum') },
  run: ({ share, target, most, near }, context) => {
    if (share < 1) return { margin: { number: 1 - share, kind: 'ratio' } };
    return {
      key: TARGET,
      message: `The target of ${shown(context, target)} is no less than the most that the well can give, ${shown(context, most)}. Lower it, or look at productivity index and reservoir pressure with their units.`,
      ...amounts(target, most),
      related: [{ key: 'reservoir', message: 'what the well gives by' }],
      fixes: lowerTarget(context, most, near),
    };
  },
});

export const INFLOW_TARGET_NEAR_MAXIMUM: Check = check({
  id: 'inflow.target-near-maximum',
  severity: 'warning',
  title: 'target close to all that the well gives',
  compares: 'the target rate with nine tenths of the rate of the well at no pressure at all',
  why:
    'Near its maximum a well answers any more drawdown with gas rather than liquid, and a small decline stops the ' +
    'unit.',
  mend: 'Lower the target.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TARGET]: '19 m3/d' }, at: TARGET },
  needs: { ...NEEDS, near: limit('inflow.target-near-maximum') },
  run: ({ share, target, most, near }, context) => {
    // Above the maximum another check speaks.
    if (share >= 1) return undefined;
    if (share <= near) return { margin: { number: near - share, kind: 'ratio' } };
    return {
      key: TARGET,
      message: `The target of ${shown(context, target)} is ${context.show(share, 'ratio')} of the most that the well can give, ${shown(context, most)}; ${context.show(near, 'ratio')} leaves it a reserve. Lower the target.`,
      ...amounts(target, most * near),
      fixes: lowerTarget(context, most, near),
    };
  },
});
