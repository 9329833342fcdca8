import { present } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const BELOW = 'equipment.gauge.below_intake';
const MOTOR = 'equipment.motor.length';
/** A gauge on its base cannot hang higher than half the motor below the intake, seals and joints left aside. */
const LEAST_SHARE = 0.5;

export const GAUGE_HANGING_DEPTH: Check = check({
  id: 'gauge.hanging-depth',
  severity: 'warning',
  title: 'depth of the gauge that does not suit the motor above it',
  compares:
    'the distance from the intake down to a gauge that measures the motor’s temperature, and so hangs on its base, with ' +
    'the length of the motor: at least half of it, at most its length and 10 m',
  why: 'The pressure trip is corrected by that distance. It is mostly a number in feet that is written in metres, or the reverse.',
  mend: 'Look at the unit of the distance, and at the length on the motor’s data sheet.',
  source: 'geometry; the limits are common practice, no source',
  example: { lift: 'linear', fails: { [BELOW]: '1.4 m' }, at: BELOW },
  when: [present(BELOW), present('equipment.gauge.measures.motor_temperature')],
  needs: { below: entry(BELOW), motor: entry(MOTOR), slack: limit('gauge.hanging-depth') },
  run: ({ below, motor, slack }, context) => {
    const [least, most] = [LEAST_SHARE * motor, motor + slack];
    if (below >= least && below <= most) return undefined;
    const show = (length: number) => context.show(length, 'length', BELOW);
    return {
      key: BELOW,
      message: `The gauge is entered ${show(below)} below the intake, and the motor that it hangs under is ${show(motor)} long. Between ${show(least)} and ${show(most)} would suit it; look at the unit.`,
      value: { number: below, kind: 'length' },
      limit: { number: below < least ? least : most, kind: 'length' },
      related: [{ key: MOTOR, message: 'the length of the motor' }],
    };
  },
});
