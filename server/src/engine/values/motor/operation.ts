import { DIRECT_ON_LINE, INDUCTION, LINEAR, PERMANENT_MAGNET, ROTARY } from '../conditions.ts';
import { declareValue, entry, entryOr, method, type Seen, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { DWELL, STROKE_RATE } from '../pump/plunger.ts';

const CURRENT = entry('equipment.motor.current');
export const NO_LOAD_OF_MAGNETS = entryOr(
  'equipment.motor.no_load_current',
  0,
  'no magnetising current in a permanent-magnet machine',
);

/** Current of an induction machine, A: its magnetising share of the rated current and its load at right angles. */
export function inductionCurrent(rated: number, share: number, load: number): number {
  return rated * Math.sqrt(share ** 2 + (1 - share ** 2) * load ** 2);
}

/** How long a plunger goes up and down, as shares of its cycle; the rest is dwell. */
export const CYCLE_SHARES = { loaded: value('pump.loaded_share'), rate: STROKE_RATE, dwell: DWELL };

/** Root mean square over a cycle of the currents of its two strokes, with none in the dwell. */
export function cycleRms(up: number, down: number, { loaded, rate, dwell }: Seen<typeof CYCLE_SHARES>): number {
  return Math.sqrt(up ** 2 * loaded + down ** 2 * Math.max(0, 1 - loaded - dwell * rate));
}

export const MOTOR_OPERATION: readonly ValueDeclaration[] = [
  valueBy('motor.frequency', 'electrical frequency', 'frequency', [
    method({
      when: [LINEAR],
      formula: 'v/(2·pole pitch), v the mean speed of the loaded stroke',
      source: 'linear synchronous machine, v = 2·τ·f, any text',
      inputs: { speed: value('pump.loaded_speed'), polePitch: entry('equipment.motor.pole_pitch') },
      compute: ({ speed, polePitch }) => speed / (2 * polePitch),
    }),
    method({
      when: [ROTARY],
      formula: 'as entered',
      source: 'the entry itself',
      inputs: { frequency: entry('operation.frequency', 'frequency') },
      compute: ({ frequency }) => frequency,
    }),
    method({
      when: [ROTARY, DIRECT_ON_LINE],
      formula: 'the supply’s',
      source: 'started direct on line',
      inputs: { frequency: entry('supply.frequency') },
      compute: ({ frequency }) => frequency,
    }),
  ]),
  valueBy('motor.load', 'load of the motor', 'ratio', [
    method({
      when: [LINEAR],
      formula: 'pump load/thrust',
      source: 'definition',
      inputs: { load: value('pump.load'), thrust: entry('equipment.motor.thrust') },
      compute: ({ load, thrust }) => load / thrust,
    }),
    method({
      when: [ROTARY],
      formula: 'pump power/(rated power·f/f_rated)',
      source: 'power in proportion to frequency at constant volts per hertz, any machines text',
      inputs: {
        power: value('pump.power'),
        rated: entry('equipment.motor.power'),
        frequency: value('motor.frequency'),
        ratedFrequency: entry('equipment.motor.frequency'),
      },
      compute: ({ power, rated, frequency, ratedFrequency }) => power / ((rated * frequency) / ratedFrequency),
    }),
  ]),
  declareValue({
    id: 'motor.magnetising_share',
    title: 'no-load current over rated current',
    kind: 'ratio',
    when: [INDUCTION],
    formula: 'I_0/I_r',
    source: 'definition',
    inputs: { noLoad: entry('equipment.motor.no_load_current'), rated: CURRENT },
    compute: ({ noLoad, rated }) => noLoad / rated,
  }),
  valueBy('motor.current', 'current of the motor', 'current', [
    method({
      when: [LINEAR],
      formula: 'I_r × load, at least the no-load current',
      source: 'permanent-magnet machine: force in proportion to current, any machines text',
      inputs: {
        rated: CURRENT,
        load: value('motor.load'),
        noLoad: NO_LOAD_OF_MAGNETS,
      },
      compute: ({ rated, load, noLoad }) => Math.max(noLoad, rated * load),
    }),
    method({
      when: [ROTARY, PERMANENT_MAGNET],
      formula: 'I_r × load',
      source: 'permanent-magnet machine: torque in proportion to current, any machines text',
      inputs: { rated: CURRENT, load: value('motor.load') },
      compute: ({ rated, load }) => rated * Math.abs(load),
    }),
    method({
      when: [ROTARY, INDUCTION],
      formula: 'I_r·√(i_0² + (1 − i_0²)·load²)',
      source: 'magnetising and load current at right angles, any machines text',
      inputs: { rated: CURRENT, load: value('motor.load'), share: value('motor.magnetising_share') },
      compute: ({ rated, load, share }) => inductionCurrent(rated, share, load),
    }),
  ]),
  valueBy('motor.current_rms', 'current over a cycle, in its heating', 'current', [
    method({
      when: [LINEAR],
      formula: '√(Σ I²·t/T): loaded stroke I, return stroke max(I_0, I_r·return load/thrust), dwell 0',
      source: 'root mean square over the cycle',
      inputs: {
        current: value('motor.current'),
        rated: CURRENT,
        thrust: entry('equipment.motor.thrust'),
        returnLoad: value('pump.return_load'),
        noLoad: NO_LOAD_OF_MAGNETS,
        ...CYCLE_SHARES,
      },
      compute: (seen) => {
        const returning = Math.max(seen.noLoad, (seen.rated * seen.returnLoad) / seen.thrust);
        return cycleRms(seen.current, returning, seen);
      },
    }),
    method({
      when: [ROTARY],
      formula: 'I',
      source: 'steady running',
      inputs: { current: value('motor.current') },
      compute: ({ current }) => current,
    }),
  ]),
  declareValue({
    id: 'motor.winding_temperature',
    title: 'winding temperature',
    kind: 'temperature',
    formula: 'T_intake + rise·(I_rms/I_r)²',
    source: 'heating in proportion to the square of the current, any machines text',
    inputs: {
      intake: value('intake.temperature'),
      rise: entry('equipment.motor.temperature_rise'),
      current: value('motor.current_rms'),
      rated: CURRENT,
    },
    compute: ({ intake, rise, current, rated }) => intake + rise * (current / rated) ** 2,
  }),
  declareValue({
    id: 'motor.cooling_velocity',
    title: 'velocity of the liquid past the motor',
    kind: 'speed',
    formula: 'rate/(casing area − motor area)',
    source: 'continuity',
    inputs: {
      rate: value('pump.rate'),
      casing: entry('well.casing.inner_diameter'),
      motor: entry('equipment.motor.outer_diameter'),
    },
    compute: ({ rate, casing, motor }) => rate / ((Math.PI / 4) * (casing ** 2 - motor ** 2)),
  }),
];
