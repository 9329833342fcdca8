import type { CheckTexts } from '../findings/texts.ts';
import { switchedOn } from '../values/conditions.ts';
import { entry, limit, optionalEntry, type Seen, value } from '../values/declare.ts';
import { bound, boundAt, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readable, within } from './rounding.ts';

const TRIP = 'setpoints.protection.motor_temperature_high.trip';
/** What must not get hotter: the insulation, and the magnets of a motor that has them. */
const RATINGS = {
  insulation: entry('equipment.motor.insulation_temperature'),
  magnets: optionalEntry('equipment.motor.magnet_temperature_max'),
};

/** The lower of the two, degC. */
function ratingOf({ insulation, magnets }: Seen<typeof RATINGS>): number {
  return Math.min(insulation, magnets ?? insulation);
}

const MARGIN = limit('motor-temperature.thin-margin');

const aboveRating: CheckTexts = {
  id: 'motor-temperature.above-rating',
  severity: 'error',
  title: 'motor-temperature trip above the rating of insulation or magnets',
  compares:
    'the motor-temperature trip with the temperature that the motor’s insulation, and its magnets, are made for',
  why:
    'The insulation ages away before the trip acts (its life halves with about every 10 K), or the magnets lose their ' +
    'strength for good.',
  mend: 'Lower the trip below both ratings: the sensor is not at the hottest place.',
  source: 'the motor’s data sheet',
  example: { lift: 'linear', fails: { [TRIP]: '300 degC' }, at: TRIP },
};
const belowRunning: CheckTexts = {
  id: 'motor-temperature.below-running',
  severity: 'error',
  title: 'motor-temperature trip below the running temperature',
  compares: 'the motor-temperature trip with the winding temperature of the hottest case',
  why: 'The unit trips in a case that it is meant to run in.',
  mend: 'Raise the trip above the hottest case, or lighten that case.',
  source: 'heating in proportion to the square of the current, any machines text',
  example: {
    lift: 'linear',
    fails: {
      [TRIP]: '40 degC',
      'setpoints.protection.motor_temperature_high.alarm': null,
      'setpoints.protection.motor_temperature_high.reset': null,
    },
    at: TRIP,
  },
};
const thinMargin: CheckTexts = {
  id: 'motor-temperature.thin-margin',
  severity: 'warning',
  title: 'motor-temperature trip close to an end of its window',
  compares: 'the motor-temperature trip with the hottest case and the insulation rating, each with a margin of 5 K',
  why: 'A little less flow past the motor trips a healthy unit, or the hot spot is past its rating at the trip.',
  mend: 'Move the trip towards the middle between hottest case and rating.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TRIP]: '147 degC' }, at: TRIP },
};

export const MOTOR_TEMPERATURE_TRIP: Window = {
  setpoint: TRIP,
  title: 'the motor-temperature trip',
  kind: 'temperature',
  compared: entry(TRIP),
  when: switchedOn('motor_temperature_high'),
  emptiness: WINDOW_EMPTY,
  bounds: [
    boundAt('motor.winding_temperature', {
      check: belowRunning,
      side: 'lower',
      hard: true,
      kind: 'temperature',
      limitName: 'the winding temperature',
      consequence: 'the unit would trip in a case that it is meant to run in',
    }),
    bound({
      check: thinMargin,
      id: 'motor-temperature.thin-margin.low',
      side: 'lower',
      hard: false,
      kind: 'temperature',
      limitName: 'the winding temperature with a margin',
      consequence: 'a little less flow past the motor would trip a healthy unit',
      formula: 'T_w + 5 K',
      inputs: { winding: value('motor.winding_temperature'), margin: MARGIN },
      compute: ({ winding, margin }) => winding + margin,
    }),
    bound({
      check: aboveRating,
      side: 'upper',
      hard: true,
      kind: 'temperature',
      limitName: 'the rating of insulation and magnets',
      consequence: 'the motor would be past its rating before it acts',
      formula: 'least of insulation rating and magnet temperature',
      inputs: RATINGS,
      compute: ratingOf,
    }),
    bound({
      check: thinMargin,
      id: 'motor-temperature.thin-margin.high',
      side: 'upper',
      hard: false,
      kind: 'temperature',
      limitName: 'the rating of insulation and magnets with a margin',
      consequence: 'the hot spot would be past its rating when it acts',
      formula: 'rating − 5 K',
      inputs: { ...RATINGS, margin: MARGIN },
      compute: ({ margin, ...ratings }) => ratingOf(ratings) - margin,
    }),
  ],
  recommendation: recommend({
    rule: 'the rating of insulation and magnets less 10 K and less 15 K for a sensor that is not at the hot spot, within the window and what the gauge reads',
    inputs: {
      ...RATINGS,
      margin: limit('motor.temperature-margin'),
      sensor: limit('motor-temperature.thin-margin.sensor'),
      read: optionalEntry('equipment.gauge.measures.motor_temperature.max'),
    },
    choose: ({ margin, sensor, read, ...ratings }, { lower, upper, hardLower, hardUpper }) => {
      const low = Math.max(hardLower, lower);
      const high = Math.min(hardUpper, upper, read ?? upper);
      return readable(within(ratingOf(ratings) - margin - sensor, low, high), low, high);
    },
  }),
};
