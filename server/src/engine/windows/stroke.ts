import type { CheckTexts } from '../findings/texts.ts';
import { absent, LINEAR, present } from '../values/conditions.ts';
import { entry, value } from '../values/declare.ts';
import { DWELL, STROKE_RATE } from '../values/pump/plunger.ts';
import { type Bound, bound, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readable } from './rounding.ts';

const RATE = 'operation.stroke.rate';
const LENGTH = 'operation.stroke.length';
const MINUTE = 60;
const UP_FRACTION = 'operation.stroke.up_fraction';

const rateTooHigh: CheckTexts = {
  id: 'pump.stroke-rate',
  severity: 'error',
  title: 'stroke rate above what the pump allows',
  compares: 'the stroke rate with the highest on the pump’s data sheet',
  why: 'The valves no longer close in time, and the plunger wears.',
  mend: 'Lower the stroke rate, and lengthen the stroke if the rate of flow is needed.',
  source: 'the pump’s data sheet',
  example: { lift: 'linear', fails: { 'equipment.pump.stroke_rate_max': '6 /min' }, at: RATE },
};
const tooLong: CheckTexts = {
  id: 'pump.stroke-length',
  severity: 'error',
  title: 'stroke longer than the pump allows',
  compares: 'the stroke length with the longest on the pump’s data sheet',
  why: 'The plunger runs against its stop at every stroke.',
  mend: 'Shorten the stroke.',
  source: 'the pump’s data sheet',
  example: { lift: 'linear', fails: { [LENGTH]: '1.6 m' }, at: LENGTH },
};
const tooFast: CheckTexts = {
  id: 'motor.stroke-speed',
  severity: 'error',
  title: 'stroke faster than the motor’s rated speed',
  compares: 'the mean speed of the loaded stroke with the rated speed on the motor’s data sheet',
  why: 'Beyond its rated speed the motor’s emf leaves no voltage to push its current through.',
  mend: 'Lower the stroke rate or the stroke length, or give the loaded stroke a greater share of the cycle.',
  source: 'the motor’s data sheet; kinematics',
  example: { lift: 'linear', fails: { [RATE]: '50 /min' }, at: RATE },
};

const SPEED = entry('equipment.motor.speed');
const SPEED_LIMIT = {
  check: tooFast,
  side: 'upper',
  hard: true,
  consequence: 'the loaded stroke would be faster than the motor’s rated speed',
} as const;

function sheetLimit(check: CheckTexts, kind: string, path: string, limitName: string, consequence: string): Bound {
  return bound({
    ...{ check, kind, limitName, consequence },
    side: 'upper',
    hard: true,
    when: [LINEAR, present(path)],
    formula: 'data sheet',
    inputs: { most: entry(path) },
    compute: ({ most }) => most,
  });
}

export const STROKE_RATE_WINDOW: Window = {
  setpoint: RATE,
  title: 'the stroke rate',
  kind: 'stroke_rate',
  compared: entry(RATE),
  when: [LINEAR, present(RATE)],
  emptiness: WINDOW_EMPTY,
  bounds: [
    sheetLimit(
      rateTooHigh,
      'stroke_rate',
      'equipment.pump.stroke_rate_max',
      'the highest stroke rate of the pump',
      'the valves would not close in time',
    ),
    bound({
      ...SPEED_LIMIT,
      id: 'motor.stroke-speed.rate',
      kind: 'stroke_rate',
      when: [LINEAR, present('equipment.motor.speed'), present(UP_FRACTION)],
      limitName: 'the stroke rate at the motor’s rated speed',
      formula: 'v_r·up_fraction/S',
      inputs: { speed: SPEED, length: entry(LENGTH), share: entry(UP_FRACTION) },
      compute: ({ speed, length, share }) => (speed * share) / length,
    }),
    bound({
      ...SPEED_LIMIT,
      id: 'motor.stroke-speed.rate-of-equal-strokes',
      kind: 'stroke_rate',
      when: [LINEAR, present('equipment.motor.speed'), absent(UP_FRACTION)],
      limitName: 'the stroke rate at the motor’s rated speed',
      formula: 'v_r/(2·S + v_r·dwell)',
      inputs: { speed: SPEED, length: entry(LENGTH), dwell: DWELL },
      compute: ({ speed, length, dwell }) => speed / (2 * length + speed * dwell),
    }),
  ],
  recommendation: recommend({
    rule: 'as the target needs at that stroke length, within the window',
    inputs: { needed: value('pump.rate_needed'), area: value('pump.effective_area'), length: entry(LENGTH) },
    choose: ({ needed, area, length }, { hardUpper }) => {
      const perMinute = (rate: number) => rate * MINUTE;
      const most = perMinute(hardUpper);
      return readable(Math.min(perMinute(needed / (area * length)), most), 0, most) / MINUTE;
    },
  }),
};

export const STROKE_LENGTH_WINDOW: Window = {
  setpoint: LENGTH,
  title: 'the stroke length',
  kind: 'length',
  compared: entry(LENGTH),
  when: [LINEAR, present(LENGTH)],
  emptiness: WINDOW_EMPTY,
  bounds: [
    sheetLimit(
      tooLong,
      'length',
      'equipment.pump.stroke_max',
      'the longest stroke of the pump',
      'the plunger would run against its stop',
    ),
    bound({
      ...SPEED_LIMIT,
      id: 'motor.stroke-speed.length',
      kind: 'length',
      when: [LINEAR, present('equipment.motor.speed')],
      limitName: 'the stroke length at the motor’s rated speed',
      formula: 'v_r·(loaded share)/N',
      inputs: { speed: SPEED, share: value('pump.loaded_share'), rate: STROKE_RATE },
      compute: ({ speed, share, rate }) => (speed * share) / rate,
    }),
  ],
  recommendation: recommend({
    rule: 'as the target needs at that stroke rate, within the window',
    inputs: { needed: value('pump.rate_needed'), area: value('pump.effective_area'), rate: entry(RATE) },
    choose: ({ needed, area, rate }, { hardUpper }) =>
      readable(Math.min(needed / (area * rate), hardUpper), 0, hardUpper),
  }),
};
