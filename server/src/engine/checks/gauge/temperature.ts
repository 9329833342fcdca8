import { present } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const MOST = 'equipment.gauge.temperature_max';

export const GAUGE_TEMPERATURE: Check = check({
  id: 'gauge.temperature',
  severity: 'error',
  title: 'well too hot for the gauge',
  compares: 'the temperature at the intake with the highest on the gauge’s data sheet',
  why: 'Its electronics drift and die, and with them the trips that act on its readings.',
  mend: 'Take a gauge for a higher temperature, and look at the unit of the reservoir temperature.',
  source: 'the gauge’s data sheet',
  example: { lift: 'linear', fails: { [MOST]: '50 degC' }, at: MOST },
  when: [present(MOST)],
  needs: { fluid: value('intake.temperature'), most: entry(MOST) },
  run: ({ fluid, most }, context) =>
    atMost(context, {
      key: MOST,
      kind: 'temperature',
      number: fluid,
      limit: most,
      says: (own, allowed) =>
        `The well has ${own} at the intake, and the gauge works up to ${allowed}. Take a gauge for a higher temperature, or look at the unit of the reservoir temperature.`,
      related: [{ key: 'reservoir.temperature', message: 'the reservoir temperature' }],
    }),
});
