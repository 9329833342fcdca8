import type { CheckTexts } from '../findings/texts.ts';
import { FLOWING_CASE, switchedOn } from '../values/conditions.ts';
import { entry, optionalValue, value } from '../values/declare.ts';
import { bound, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readablePressure, thirdOfTheWay, twiceAccuracyAboveTrip } from './intake-pressures.ts';

const ALARM = 'setpoints.protection.intake_pressure_low.alarm';

const aboveFlowing: CheckTexts = {
  id: 'intake-trip.alarm-above-flowing',
  severity: 'warning',
  title: 'intake-pressure alarm above flowing pressure',
  compares: 'the alarm of the low intake-pressure protection with the pressure at the intake in each running case',
  why: 'The alarm stands as long as the unit runs as planned, and nobody heeds it any more.',
  mend: 'Lower the alarm below the flowing pressure.',
  source: 'inflow of the well: straight line, Vogel 1968',
  example: { lift: 'linear', fails: { [ALARM]: '60 bar' }, at: ALARM },
};

export const INTAKE_PRESSURE_ALARM: Window = {
  setpoint: ALARM,
  title: 'the intake-pressure alarm',
  kind: 'pressure',
  compared: entry(ALARM),
  when: [...switchedOn('intake_pressure_low'), { path: ALARM, present: true }],
  emptiness: WINDOW_EMPTY,
  bounds: [
    twiceAccuracyAboveTrip('alarm'),
    bound({
      check: aboveFlowing,
      side: 'upper',
      hard: false,
      kind: 'pressure',
      when: [FLOWING_CASE],
      limitName: 'the pressure at the intake while running',
      consequence: 'the alarm would stand as long as the unit runs',
      formula: 'intake pressure of the running case',
      inputs: { running: value('intake.running_pressure'), target: optionalValue('intake.flowing_pressure') },
      compute: ({ running, target }) => Math.min(running, target ?? running),
    }),
  ],
  recommendation: recommend({
    rule: 'a third of the way from the trip to the flowing pressure',
    inputs: {
      trip: entry('setpoints.protection.intake_pressure_low.trip'),
      atmosphere: value('site.atmosphere'),
    },
    choose: ({ trip, atmosphere }, { upper }) => readablePressure(thirdOfTheWay(trip, upper), trip, upper, atmosphere),
  }),
};
