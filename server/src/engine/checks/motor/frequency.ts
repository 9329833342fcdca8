import { present } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { pacingKey } from '../case-keys.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const MOST = 'equipment.motor.max_frequency';

export const MOTOR_FREQUENCY: Check = check({
  id: 'motor.frequency',
  severity: 'error',
  title: 'frequency above the motor’s highest',
  compares: 'the electrical frequency of each case with the highest on the motor’s data sheet',
  why: 'Rotor and bearings are not made for the speed, and the voltage does not reach that far.',
  mend: 'Lower frequency or stroke rate.',
  source: 'the motor’s data sheet',
  example: { lift: 'rotary', fails: { 'operation.frequency': '62 Hz' }, at: 'operation.frequency' },
  when: [present(MOST)],
  needs: { frequency: value('motor.frequency'), most: entry(MOST) },
  run: ({ frequency, most }, context) =>
    atMost(context, {
      key: pacingKey(context),
      kind: 'frequency',
      number: frequency,
      limit: most,
      says: (own, allowed) =>
        `In the case '${context.caseName}' the motor runs at ${own}, above the ${allowed} that it is made for. Lower the ${context.text('lift') === 'linear' ? 'stroke rate' : 'frequency'}.`,
      related: [{ key: MOST, message: 'the highest frequency of the motor' }],
      follows: ['motor.stroke-speed'],
    }),
});
