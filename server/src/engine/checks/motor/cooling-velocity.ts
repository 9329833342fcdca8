import { ROTARY } from '../../values/conditions.ts';
import { limit, optionalEntry, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atLeast } from '../within.ts';

const LEAST = 'equipment.motor.min_cooling_velocity';
const PLACE = 'well.casing.inner_diameter';

export const MOTOR_COOLING_VELOCITY: Check = check({
  id: 'motor.cooling-velocity',
  severity: 'warning',
  title: 'too little flow past the motor',
  compares:
    'the velocity of the liquid between motor and casing in each case with the least on the data sheet, else 0.3 m/s',
  why: 'A motor is cooled by what it lifts. In nearly still liquid it runs much hotter than its rise says.',
  mend: 'Run the motor in a shroud, take a thicker one, or raise the rate.',
  source: 'continuity; 0.3 m/s is common practice, no source',
  example: { lift: 'rotary', fails: { [PLACE]: '220 mm' }, at: PLACE },
  when: [ROTARY],
  needs: {
    velocity: value('motor.cooling_velocity'),
    stated: optionalEntry(LEAST),
    usual: limit('motor.cooling-velocity'),
  },
  run: ({ velocity, stated, usual }, context) =>
    atLeast(context, {
      key: PLACE,
      kind: 'speed',
      number: velocity,
      limit: stated ?? usual,
      says: (own, least) =>
        `In the case '${context.caseName}' the liquid passes the motor at ${own}; it takes ${least} to cool it. Run it in a shroud, or raise the rate.`,
      related: [{ key: 'equipment.motor.outer_diameter', message: 'the diameter of the motor' }],
    }),
});
