import { LINEAR, present, ROTARY } from '../../values/conditions.ts';
import { entry, type Input, limit, optionalEntry, value } from '../../values/declare.ts';
import { type Check, checkOfParts, type Part, part } from '../declare.ts';
import { atLeast } from '../within.ts';

const LEAST = 'equipment.motor.min_cooling_velocity';
const PLACE = 'well.casing.inner_diameter';

function cooled(when: Part['when'], stated: Input<number | undefined>): Part {
  return part({
    when,
    needs: { velocity: value('motor.cooling_velocity'), stated, usual: limit('motor.cooling-velocity') },
    run: ({ velocity, stated: own, usual }, context) =>
      atLeast(context, {
        key: PLACE,
        kind: 'speed',
        number: velocity,
        limit: own ?? usual,
        says: (flow, least) =>
          `In the case '${context.caseName}' the liquid passes the motor at ${flow}; it takes ${least} to cool it. Run it in a shroud, or raise the rate.`,
        related: [{ key: 'equipment.motor.outer_diameter', message: 'the diameter of the motor' }],
      }),
  });
}

export const MOTOR_COOLING_VELOCITY: Check = checkOfParts(
  {
    id: 'motor.cooling-velocity',
    severity: 'warning',
    title: 'too little flow past the motor',
    compares:
      'the velocity of the liquid between motor and casing in each case with the least on the data sheet; of a ' +
      'rotary pump, ' +
      'where the sheet states none, with 0.3 m/s',
    why: 'A motor is cooled by what it lifts. In nearly still liquid it runs much hotter than its rise says.',
    mend: 'Run the motor in a shroud, take a thicker one, or raise the rate.',
    source: 'continuity; 0.3 m/s is common practice, no source',
    example: { lift: 'rotary', fails: { [PLACE]: '220 mm' }, at: PLACE },
  },
  [cooled([ROTARY], optionalEntry(LEAST)), cooled([LINEAR, present(LEAST)], entry(LEAST))],
);
