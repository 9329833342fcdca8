import { entry, value } from '../../values/declare.ts';
import { NOT_AT_THE_TRIP } from '../case-keys.ts';
import { type Check, check } from '../declare.ts';
import { reaches } from '../reaches.ts';

const CASING = 'well.wellhead.casing_pressure';
export const WELL_LEVEL_BELOW_INTAKE: Check = check({
  id: 'well.level-below-intake',
  severity: 'error',
  title: 'no liquid above the intake',
  compares: 'the pressure at the intake, at rest, flowing or as a case states it, with the casing pressure',
  why:
    'Where the intake has no more than the casing pressure the liquid level is at the intake or below it, and the ' +
    'pump takes gas.',
  mend: 'Lower the target or hang the pump deeper; look at the units of reservoir and casing pressure.',
  source: 'hydrostatics',
  example: { lift: 'linear', fails: { [CASING]: '60 bar' }, at: CASING },
  // A trip that is too low has a check of its own.
  when: [NOT_AT_THE_TRIP],
  needs: { intake: value('intake.running_pressure'), casing: entry(CASING) },
  run: ({ intake, casing }, context) => {
    if (!reaches(casing, intake)) return { margin: { number: intake - casing, kind: 'pressure_difference' } };
    const show = (pressure: number) => context.show(pressure, 'pressure', CASING);
    return {
      key: CASING,
      message: `In the case '${context.caseName}' the intake has ${show(intake)}, no more than the casing pressure of ${show(casing)}: no liquid stands above it. Lower the target or hang the pump deeper, and look at the units of both.`,
      value: { number: intake, kind: 'pressure' },
      limit: { number: casing, kind: 'pressure' },
      // Running below its trip is the same fact, and the trip speaks of it.
      follows: ['intake-trip.above-flowing'],
    };
  },
});
