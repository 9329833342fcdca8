import { STANDARD_ATMOSPHERE } from '../../links/atmosphere.ts';
import { entry, limit, optionalEntry, optionalValue } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement, type Verdict } from '../declare.ts';

const STATED = 'reservoir.bubble_point';
const RESERVOIR = 'reservoir.pressure';

interface Limits {
  readonly warning: number;
  readonly note: number;
}

/** A greater factor says no more than that a unit or a digit is wrong. */
const MOST_SAID = 100;

function judge(context: CheckContext, stated: number, other: number, message: string): Judgement {
  return {
    key: STATED,
    message: `A bubble point of ${context.show(stated, 'pressure', STATED)} ${message}`,
    value: { number: stated, kind: 'pressure' },
    limit: { number: other, kind: 'pressure' },
  };
}

function againstReservoir(context: CheckContext, stated: number, reservoir: number, most: number): Verdict {
  if (stated <= most * reservoir) return undefined;
  const times = reservoir > 0 ? context.show(stated / reservoir, 'plain') : 'more than a thousand';
  return {
    ...judge(
      context,
      stated,
      reservoir,
      `is ${times} times the reservoir pressure of ${context.show(reservoir, 'pressure', RESERVOIR)}: the oil would have lost its gas long ago. Look at the units of both.`,
    ),
    related: [{ key: RESERVOIR, message: 'the reservoir pressure' }],
  };
}

function againstCorrelation(context: CheckContext, stated: number, computed: number, limits: Limits): Verdict {
  // With next to no gas the correlation falls below the air's pressure, where an oil has none left to lose.
  const least = Math.max(computed, STANDARD_ATMOSPHERE);
  const factor = Math.max(stated / least, least / stated);
  if (!(factor > limits.note)) return undefined;
  const shown = context.show(least, 'pressure', STATED);
  return {
    ...judge(
      context,
      stated,
      least,
      `and the one that the gas-oil ratio gives, ${shown}, differ by ${factor > MOST_SAID ? 'orders of magnitude' : `a factor of ${context.show(factor, 'plain')}`}. Look at the units of bubble point and gas-oil ratio.`,
    ),
    severity: factor > limits.warning ? 'warning' : 'note',
    related: [{ key: 'fluid.gas_oil_ratio', message: 'the gas that it rests on' }],
  };
}

export const RESERVOIR_BUBBLE_POINT_DISAGREES: Check = check({
  id: 'reservoir.bubble-point-disagrees',
  severity: 'warning',
  title: 'bubble point does not suit the gas or the reservoir',
  compares:
    'the stated bubble point with that of the correlation (by a factor of 2 a note, of 3 a warning), and with ' +
    'three times ' +
    'the reservoir pressure',
  why:
    'Inflow and free gas at the pump turn at the bubble point. A correlation is off by a half at most; a wrong ' +
    'unit by much more.',
  mend: 'Look at the units of bubble point, gas-oil ratio and reservoir pressure.',
  source: 'Standing 1947; the factors are common practice, no source',
  example: { lift: 'linear', fails: { [STATED]: '310 bar' }, at: STATED },
  needs: {
    stated: entry(STATED),
    reservoir: optionalEntry(RESERVOIR),
    computed: optionalValue('fluid.standing_bubble_point'),
    warning: limit('reservoir.bubble-point-disagrees'),
    note: limit('reservoir.bubble-point-disagrees.note'),
  },
  run: ({ stated, reservoir, computed, warning, note }, context) => {
    const beyond = reservoir === undefined ? undefined : againstReservoir(context, stated, reservoir, warning);
    if (beyond !== undefined || computed === undefined) return beyond;
    return againstCorrelation(context, stated, computed, { warning, note });
  },
});
