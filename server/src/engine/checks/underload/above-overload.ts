import { switchedOn } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { swapOffer } from '../swap.ts';

const UNDERLOAD = 'setpoints.protection.underload.trip';
const OVERLOAD = 'setpoints.protection.overload.trip';

export const UNDERLOAD_ABOVE_OVERLOAD: Check = check({
  id: 'underload.above-overload',
  severity: 'error',
  title: 'underload trip not below the overload trip',
  compares: 'the underload trip with the overload trip, both on the motor side of the transformer',
  why: 'No current lies above the one and below the other, so the unit cannot run. Mostly the two are swapped.',
  mend: 'Swap them, or correct the one that is wrong.',
  source: 'logic of limits',
  example: { lift: 'linear', fails: { [UNDERLOAD]: '16 A' }, at: UNDERLOAD },
  when: [...switchedOn('underload'), ...switchedOn('overload')],
  needs: {
    underload: entry(UNDERLOAD),
    ratio: value('underload.side_ratio'),
    overload: value('overload.trip_at_motor'),
  },
  run: ({ underload, ratio, overload }, context) => {
    const atMotor = underload / ratio;
    if (atMotor < overload) return { margin: { number: overload - atMotor, kind: 'current' } };
    return {
      key: UNDERLOAD,
      message: `The underload trip, ${context.show(atMotor, 'current', UNDERLOAD)} at the motor, is not below the overload trip, ${context.show(overload, 'current', OVERLOAD)} there: no current lets the unit run. Are the two swapped?`,
      value: { number: atMotor, kind: 'current' },
      limit: { number: overload, kind: 'current' },
      related: [{ key: OVERLOAD, message: 'the overload trip' }],
      // Of currents on two sides of the transformer the one is not the other's value.
      fixes: ratio === 1 && atMotor > overload ? swapOffer(context, UNDERLOAD, OVERLOAD) : [],
    };
  },
});
