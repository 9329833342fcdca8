import { present } from '../../values/conditions.ts';
import { eachCase, entry, entryOr } from '../../values/declare.ts';
import { GRAVITY } from '../../values/physics.ts';
import { type Check, check } from '../declare.ts';
import { CHANNEL } from './keys.ts';

const TOP = `${CHANNEL}.max`;

export const GAUGE_OVERRANGED: Check = check({
  id: 'intake-trip.gauge-overranged',
  severity: 'error',
  title: 'gauge whose range the well exceeds at rest',
  compares: 'the static pressure at the gauge, in the case in which it is highest, with the top of the gauge’s range',
  why: 'A gauge beyond its range reads nothing, or is damaged before the unit has started once.',
  mend: 'Take a gauge with a greater range.',
  source: 'the gauge’s data sheet; hydrostatics',
  example: {
    lift: 'linear',
    fails: { 'equipment.gauge.measures': '{ intake_pressure: { min: 0 bar, max: 60 bar, accuracy: 0.4 bar } }' },
    at: TOP,
  },
  when: [present(CHANNEL)],
  needs: {
    top: entry(TOP),
    pressures: eachCase('intake.static_pressure'),
    densities: eachCase('fluid.liquid_density'),
    below: entryOr('equipment.gauge.below_intake', 0, 'at the intake where no depth is entered'),
  },
  run: ({ top, pressures, densities, below }, context) => {
    const atGauge = pressures.map((pressure, at) => pressure + (densities[at] ?? Number.NaN) * GRAVITY * below);
    const highest = Math.max(...atGauge);
    if (highest <= top) return { margin: { number: top - highest, kind: 'pressure_difference' } };
    const caseIndex = atGauge.indexOf(highest);
    const show = (pressure: number) => context.show(pressure, 'pressure', TOP);
    return {
      key: TOP,
      caseIndex,
      message: `At rest the gauge stands at ${show(highest)} in the case '${context.evaluation.caseName(caseIndex)}', beyond the top of its range, ${show(top)}. Take a gauge with a greater range.`,
      value: { number: highest, kind: 'pressure' },
      limit: { number: top, kind: 'pressure' },
    };
  },
});
