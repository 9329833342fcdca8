import { INDUCTION, PERMANENT_MAGNET, present, ROTARY } from '../conditions.ts';
import {
  type Condition,
  entry,
  type Method,
  method,
  rows,
  type Seen,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { SYSTEM } from '../lift/system.ts';
import type { RotaryPump } from './operating-point.ts';
import { stageCurve } from './rotary-curve.ts';

/** Inputs of a rotary pump on its shaft in its well. */
export const ROTARY_PUMP = {
  ...SYSTEM,
  stages: entry('equipment.pump.stages'),
  points: rows('equipment.pump.curve.points', { rate: 'number', head: 'number', power: 'number' }),
  curveDensity: entry('equipment.pump.curve.density'),
  frequency: value('motor.frequency'),
  ratedFrequency: entry('equipment.motor.frequency'),
  ratedPower: entry('equipment.motor.power'),
  noLoadRatio: value('pump.no_load_speed_ratio'),
  ratedSlip: value('motor.rated_slip'),
};

export function rotaryPump(seen: Seen<typeof ROTARY_PUMP>): RotaryPump {
  return { stage: stageCurve(seen.points, seen.curveDensity), stages: seen.stages, shaft: seen, system: seen };
}

const SYNCHRONOUS = 'synchronous speed, any machines text';
/** How far the frequencies of motor and curve may lie apart for one to stand for the other's speed. */
const SAME_RANGE = 1.25;

const byPoles = (when: readonly Condition[]): Method =>
  method({
    when: [ROTARY, ...when, present('equipment.motor.poles'), present('equipment.pump.curve.speed')],
    formula: '(120·f/poles)/n_curve',
    source: SYNCHRONOUS,
    inputs: {
      frequency: value('motor.frequency'),
      poles: entry('equipment.motor.poles'),
      curveSpeed: entry('equipment.pump.curve.speed'),
    },
    compute: ({ frequency, poles, curveSpeed }) => (2 * frequency) / poles / curveSpeed,
  });

const byFrequency: Method = method({
  when: [ROTARY, INDUCTION],
  formula: 'f/f_curve',
  source: 'affinity laws (common practice, no source)',
  inputs: { frequency: value('motor.frequency'), curveFrequency: entry('equipment.pump.curve.frequency') },
  assumes: 'a shaft speed in proportion to frequency: poles, motor speed and curve speed are not all given',
  compute: ({ frequency, curveFrequency }) => frequency / curveFrequency,
});

const byFrequencyOfMagnetMotor: Method = method({
  when: [ROTARY, PERMANENT_MAGNET],
  formula: 'f/f_curve',
  source: 'affinity laws (common practice, no source)',
  inputs: {
    frequency: value('motor.frequency'),
    rated: entry('equipment.motor.frequency'),
    curveFrequency: entry('equipment.pump.curve.frequency'),
  },
  assumes: 'a shaft speed in proportion to frequency: poles and curve speed are not both given',
  without:
    'the motor runs in another range of frequency than the curve: equipment.motor.poles and equipment.pump.curve.speed are needed',
  compute: ({ frequency, rated, curveFrequency }) => {
    const apart = Math.max(rated / curveFrequency, curveFrequency / rated);
    return apart <= SAME_RANGE ? frequency / curveFrequency : Number.NaN;
  },
});

export const SHAFT_SPEED: readonly ValueDeclaration[] = [
  valueBy('pump.no_load_speed_ratio', 'shaft speed without slip over that of the curve', 'plain', [
    byPoles([PERMANENT_MAGNET]),
    byPoles([INDUCTION, present('equipment.motor.speed')]),
    byFrequency,
    byFrequencyOfMagnetMotor,
  ]),
  valueBy('motor.rated_slip', 'slip at rated load', 'ratio', [
    method({
      when: [ROTARY, PERMANENT_MAGNET],
      formula: '0',
      source: 'synchronous machine',
      inputs: {},
      compute: () => 0,
    }),
    method({
      when: [
        ROTARY,
        INDUCTION,
        present('equipment.motor.poles'),
        present('equipment.motor.speed'),
        present('equipment.pump.curve.speed'),
      ],
      formula: '1 − n_r/(120·f_r/poles)',
      source: SYNCHRONOUS,
      inputs: {
        poles: entry('equipment.motor.poles'),
        speed: entry('equipment.motor.speed'),
        rated: entry('equipment.motor.frequency'),
      },
      compute: ({ poles, speed, rated }) => 1 - speed / ((2 * rated) / poles),
    }),
    method({
      when: [ROTARY, INDUCTION],
      formula: '0',
      source: 'common practice, no source',
      inputs: {},
      assumes: 'no slip: poles, motor speed and curve speed are not all given',
      compute: () => 0,
    }),
  ]),
];
