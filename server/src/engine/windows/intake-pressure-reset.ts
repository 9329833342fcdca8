import type { CheckTexts } from '../findings/texts.ts';
import { switchedOn } from '../values/conditions.ts';
import { entry, value } from '../values/declare.ts';
import { GRAVITY_SOURCE } from '../values/physics.ts';
import { bound, boundAt, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readablePressure, thirdOfTheWay, twiceAccuracyAboveTrip } from './intake-pressures.ts';

const RESET = 'setpoints.protection.intake_pressure_low.reset';
const TRIP = entry('setpoints.protection.intake_pressure_low.trip');

const notAbove: CheckTexts = {
  id: 'intake-trip.reset-not-above',
  severity: 'error',
  title: 'intake-pressure reset not above the trip',
  compares: 'the reset of the low intake-pressure protection with its trip',
  why: 'The unit restarts as soon as it has stopped, and stops again: it hunts until the count of restarts is used up.',
  mend: 'Raise the reset above the trip by more than the gauge’s accuracy.',
  source: 'definition of a reset',
  example: { lift: 'linear', fails: { [RESET]: '5 bar' }, at: RESET },
};
const unreachable: CheckTexts = {
  id: 'intake-trip.reset-unreachable',
  severity: 'error',
  title: 'intake-pressure reset that the well cannot reach',
  compares: 'the reset of the low intake-pressure protection with the pressure at the intake with the well at rest',
  why: 'The well does not rise to the reset: after one trip the unit never starts again by itself.',
  mend: 'Lower the reset below the static pressure at the intake.',
  source: GRAVITY_SOURCE,
  example: { lift: 'linear', fails: { [RESET]: '150 bar' }, at: RESET },
};

export const INTAKE_PRESSURE_RESET: Window = {
  setpoint: RESET,
  title: 'the intake-pressure reset',
  kind: 'pressure',
  compared: entry(RESET),
  when: [...switchedOn('intake_pressure_low'), { path: RESET, present: true }],
  emptiness: WINDOW_EMPTY,
  bounds: [
    bound({
      check: notAbove,
      side: 'lower',
      hard: true,
      excludesItself: true,
      kind: 'pressure',
      limitName: 'the trip',
      consequence: 'the unit would restart as soon as it has stopped',
      formula: 'p_trip',
      inputs: { trip: TRIP },
      compute: ({ trip }) => trip,
    }),
    twiceAccuracyAboveTrip('reset'),
    boundAt('intake.static_pressure', {
      check: unreachable,
      side: 'upper',
      hard: true,
      excludesItself: true,
      kind: 'pressure',
      limitName: 'the pressure at the intake with the well at rest',
      consequence: 'the unit would never start again by itself',
    }),
  ],
  recommendation: recommend({
    rule: 'a third of the way from the trip to the static pressure',
    inputs: { trip: TRIP, atmosphere: value('site.atmosphere') },
    choose: ({ trip, atmosphere }, { hardUpper }) =>
      readablePressure(thirdOfTheWay(trip, hardUpper), trip, hardUpper, atmosphere),
  }),
};
