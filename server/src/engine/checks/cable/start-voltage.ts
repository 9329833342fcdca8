import { limit, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atLeast } from '../within.ts';
import { MAIN_KEY } from './runs.ts';

const LOCKED = 'equipment.motor.locked_rotor_current';
const ON_THE_LINE = { 'equipment.drive': null, 'setpoints.drive': null };

export const CABLE_START_VOLTAGE: Check = check({
  id: 'cable.start-voltage',
  severity: 'error',
  title: 'too little voltage left for a start on the line',
  compares:
    'the share of the rated voltage that is left at the motor at its locked-rotor current, the supply at its low end',
  why: 'The torque falls with the square of the voltage: the motor does not come off, and burns in standstill.',
  mend: 'Use a thicker conductor, a higher tap, or a drive.',
  source: 'common practice; widely quoted as an API recommended practice (from memory)',
  example: {
    lift: 'rotary',
    fails: ON_THE_LINE,
    passes: { ...ON_THE_LINE, [LOCKED]: '60 A' },
    at: MAIN_KEY,
  },
  needs: {
    left: value('cable.start_voltage'),
    least: limit('cable.start-voltage'),
    wrong: limit('cable.start-voltage.error'),
  },
  run: ({ left, least, wrong }, context) =>
    atLeast(context, {
      key: MAIN_KEY,
      kind: 'ratio',
      number: left,
      limit: least,
      severity: left < wrong ? 'error' : 'warning',
      says: (own, allowed) =>
        `At the locked-rotor current ${own} of its rated voltage is left at the motor; it takes ${allowed} to start it surely, and below ${context.show(wrong, 'ratio')} it stands still. Use a thicker conductor, a higher tap, or a drive.`,
      related: [{ key: LOCKED, message: 'the current at the start' }],
    }),
});
