import { present, ROTARY } from '../../values/conditions.ts';
import { limit, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const VISCOSITY = 'fluid.viscosity';

export const PUMP_VISCOUS_FLUID: Check = check({
  id: 'pump.viscous-fluid',
  severity: 'warning',
  title: 'liquid too thick for a curve on water',
  compares: 'the viscosity of the liquid with 20 cP, above which the curve of a rotary pump on water no longer holds',
  why: 'A thick liquid takes head and efficiency from the pump and adds to its power. None of that is reckoned here.',
  mend: 'Use a curve that is corrected for the viscosity, and accept this as a deviation; look at the unit.',
  source: 'ANSI/HI 9.6.7 corrects from there on (from memory); the limit is common practice, no source',
  example: { lift: 'rotary', fails: { [VISCOSITY]: '180 cP' }, at: VISCOSITY },
  when: [ROTARY, present(VISCOSITY)],
  needs: { viscosity: value('fluid.dynamic_viscosity'), most: limit('pump.viscous-fluid') },
  run: ({ viscosity, most }, context) =>
    atMost(context, {
      key: VISCOSITY,
      kind: 'viscosity',
      number: viscosity,
      limit: most,
      says: (own, allowed) =>
        `At ${own}, above ${allowed}, the pump gives less head and takes more power than its curve on water says. Use a curve that is corrected for the viscosity, or look at the unit.`,
    }),
});
