import type { CheckTexts } from '../findings/texts.ts';
import { entry } from '../values/declare.ts';
import { type Bound, bound } from './declare.ts';

const KEY = 'setpoints.protection.intake_pressure_low';
const ACCURACY = 'equipment.gauge.measures.intake_pressure.accuracy';
const HALF_BAR = 5e4;

/** Shared by alarm and reset, and by the trip where it is close to zero. */
export const FINER_THAN_GAUGE: CheckTexts = {
  id: 'intake-trip.finer-than-gauge',
  severity: 'warning',
  title: 'intake-pressure setpoints closer together than the gauge can tell',
  compares:
    'the distance of alarm and reset from the low intake-pressure trip, and of the trip from zero, with twice the ' +
    'gauge’s accuracy',
  why: 'Within twice its accuracy a gauge may read the one when the other is meant.',
  mend: 'Move the alarm or the reset further from the trip, and the trip further from zero.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [`${KEY}.trip`]: '17 bar', [`${KEY}.alarm`]: '17.01 bar' }, at: `${KEY}.alarm` },
};

/** The soft bound that alarm and reset have from below. */
export function twiceAccuracyAboveTrip(which: 'alarm' | 'reset'): Bound {
  return bound({
    check: FINER_THAN_GAUGE,
    id: `intake-trip.finer-than-gauge.${which}`,
    side: 'lower',
    hard: false,
    kind: 'pressure',
    when: [{ path: ACCURACY, present: true }],
    limitName: 'the trip with twice the accuracy of the gauge',
    consequence: 'the gauge could not tell it from the trip',
    formula: 'p_trip + 2·accuracy',
    inputs: { trip: entry(`${KEY}.trip`), accuracy: entry(ACCURACY) },
    compute: ({ trip, accuracy }) => trip + 2 * accuracy,
  });
}

export function thirdOfTheWay(from: number, to: number): number {
  return from + (to - from) / 3;
}

/** A pressure (Pa absolute) to half a bar above the surrounding air, unless that takes it out of the range. */
export function readablePressure(pressure: number, low: number, high: number, atmosphere: number): number {
  const rounded = Math.round((pressure - atmosphere) / HALF_BAR) * HALF_BAR + atmosphere;
  return rounded > low && rounded < high ? rounded : pressure;
}
