import { TRIP_CASE } from '../../values/conditions.ts';
import { value } from '../../values/declare.ts';
import { pacingKey } from '../case-keys.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const TARGET = 'operation.target_rate';

export const PUMP_OUTPACES_INFLOW: Check = check({
  id: 'pump.outpaces-inflow',
  severity: 'warning',
  title: 'the pump takes more than the well gives',
  compares:
    'the rate of the pump at the low intake-pressure trip with what the well gives there, both at intake conditions',
  why: 'The level goes on falling until the trip stops the unit: it will pump off, and start and stop for ever.',
  mend: 'Slow the pump down, or lower the trip as far as the submergence allows.',
  source: 'straight line above the bubble point, Vogel 1968 below',
  example: {
    lift: 'linear',
    fails: { 'operation.stroke.rate': '8 /min', 'operation.cases': '[ { name: pumped off, intake: trip } ]' },
    at: 'operation.stroke.rate',
  },
  when: [TRIP_CASE],
  needs: { rate: value('pump.rate'), inflow: value('inflow.intake_rate_at_trip') },
  run: ({ rate, inflow }, context) =>
    atMost(context, {
      key: pacingKey(context),
      kind: 'volume_rate',
      number: rate,
      limit: inflow,
      says: () => {
        const show = (number: number) => context.show(number, 'volume_rate', TARGET);
        return `At the low intake-pressure trip the pump still takes ${show(rate)} and the well gives ${show(inflow)}: it will pump off and trip. Slow it down, or lower the trip as far as the submergence allows.`;
      },
      related: [{ key: 'setpoints.protection.intake_pressure_low.trip', message: 'the trip' }],
      // A flowing pressure below the trip is the same fact, seen from the trip.
      follows: ['intake-trip.above-flowing'],
    }),
});
