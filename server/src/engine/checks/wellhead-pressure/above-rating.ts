import { switchedOn } from '../../values/conditions.ts';
import { entry } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const TRIP = 'setpoints.protection.wellhead_pressure_high.trip';
const RATING = 'well.wellhead.pressure_rating';

export const WELLHEAD_PRESSURE_ABOVE_RATING: Check = check({
  id: 'wellhead-pressure.above-rating',
  severity: 'error',
  title: 'wellhead-pressure trip above the rating',
  compares: 'the high-wellhead-pressure trip with the pressure rating of the wellhead',
  why: 'The wellhead is beyond what it is made for before the pump stops.',
  mend: 'Set the trip below the lowest rating of what it protects.',
  source: 'logic of ratings',
  example: {
    lift: 'linear',
    fails: { 'setpoints.protection.wellhead_pressure_high': '{ trip: 230 bar, delay: 2 s }' },
    at: TRIP,
  },
  when: switchedOn('wellhead_pressure_high'),
  needs: { trip: entry(TRIP), rating: entry(RATING) },
  run: ({ trip, rating }, context) => {
    if (trip <= rating) return { margin: { number: rating - trip, kind: 'pressure_difference' } };
    const show = (pressure: number) => context.show(pressure, 'pressure', TRIP);
    return {
      key: TRIP,
      message: `The high-wellhead-pressure trip of ${show(trip)} lies above the rating of the wellhead, ${show(rating)}: it would act too late. Set it below ${show(rating)}.`,
      value: { number: trip, kind: 'pressure' },
      limit: { number: rating, kind: 'pressure' },
      related: [{ key: RATING, message: 'the rating of the wellhead' }],
    };
  },
});
