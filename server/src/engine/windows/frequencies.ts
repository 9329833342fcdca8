import type { CheckTexts } from '../findings/texts.ts';
import { present, VOLTS_PER_HERTZ, WITH_DRIVE } from '../values/conditions.ts';
import { entry, entryOr, knownCases, limit, value } from '../values/declare.ts';
import { type Bound, bound, boundAt, recommend, type Side, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readable, within } from './rounding.ts';

const BASE = 'setpoints.drive.base_frequency';
const MINIMUM = 'setpoints.drive.min_frequency';
const MAXIMUM = 'setpoints.drive.max_frequency';
const RANGE = 'equipment.drive.frequency_range';
/** How far beyond the frequencies of the cases the limits are recommended (common practice, no source). */
const ROOM = 0.1;

const order: CheckTexts = {
  id: 'drive.frequency-order',
  severity: 'error',
  title: 'frequency limits in the wrong order',
  compares: 'minimum with maximum and base frequency; the base may lie above the maximum',
  why: 'There is no frequency at which the drive may run, or none below its base.',
  mend: 'Enter a minimum below the maximum and not above the base frequency.',
  source: 'definition of the limits',
  example: { lift: 'linear', fails: { [MINIMUM]: '9 Hz', [MAXIMUM]: '8 Hz', [BASE]: '10 Hz' }, at: MINIMUM },
};
const outside: CheckTexts = {
  id: 'drive.frequency-outside',
  severity: 'error',
  title: 'frequency limit outside of what the drive can do',
  compares: 'minimum and maximum frequency with the range on the drive’s data sheet',
  why: 'The drive refuses the setting, or takes its own limit without a word.',
  mend: 'Choose a limit within the drive’s range.',
  source: 'the drive’s data sheet',
  example: { lift: 'rotary', fails: { [MAXIMUM]: '900 Hz' }, at: MAXIMUM },
};
const operating: CheckTexts = {
  id: 'drive.operating-outside-limits',
  severity: 'error',
  title: 'a case runs outside of the frequency limits',
  compares: 'the frequency of each case with minimum and maximum frequency',
  why: 'The drive holds its limit: the unit does not do what the case says.',
  mend: 'Widen the limit, or change the case.',
  source: 'definition of the limits',
  example: { lift: 'rotary', fails: { [MAXIMUM]: '36 Hz', [MINIMUM]: '30 Hz' }, at: MAXIMUM },
};
const aboveMotor: CheckTexts = {
  id: 'drive.frequency-above-motor',
  severity: 'error',
  title: 'maximum frequency above the motor’s',
  compares: 'the drive’s maximum frequency with the highest on the motor’s data sheet',
  why: 'A turn of the knob brings the motor to a speed that its bearings and its rotor are not made for.',
  mend: 'Lower the maximum frequency to the motor’s.',
  source: 'the motor’s data sheet',
  example: { lift: 'rotary', fails: { [MAXIMUM]: '64 Hz' }, at: MAXIMUM },
};
const noFlow: CheckTexts = {
  id: 'pump.no-flow-at-minimum-frequency',
  severity: 'error',
  title: 'the pump moves nothing at the minimum frequency',
  compares: 'the minimum frequency with that at which the shut-off head just holds the column, the well at rest',
  why: 'At its minimum the pump churns the same liquid: nothing flows past the motor, and it cooks.',
  mend: 'Raise the minimum frequency above that.',
  source: 'affinity laws; hydrostatics',
  example: { lift: 'rotary', fails: { [MINIMUM]: '8 Hz' }, at: MINIMUM },
};
const housing: CheckTexts = {
  id: 'pump.housing-pressure',
  severity: 'error',
  title: 'shut-off pressure above what the housing stands',
  compares: 'the pressure across the housing against a closed valve at the maximum frequency with the pump’s rating',
  why: 'A closed valve at the wellhead bursts the housing.',
  mend: 'Lower the maximum frequency, or take a pump with a stronger housing.',
  source: 'affinity laws; the pump’s data sheet',
  example: { lift: 'rotary', fails: { 'equipment.pump.pressure_max': '195 bar' }, at: MAXIMUM },
};
const beyondTap: CheckTexts = {
  id: 'tap.cannot-reach-maximum-frequency',
  severity: 'warning',
  title: 'the tap does not serve the maximum frequency',
  compares:
    'the maximum frequency with the highest at which the tap still serves the flowing cases: a rotary pump’s load grows ' +
    'with the square of the frequency, a plunger’s not at all',
  why: 'Above it drive or winding are out of voltage or of current: the motor weakens just where it needs most.',
  mend: 'Lower the maximum frequency, or take another tap inside its window.',
  source: 'circuit of motor, cable and transformer, any machines text; affinity laws',
  example: { lift: 'rotary', fails: { [MAXIMUM]: '55 Hz' }, at: MAXIMUM },
};
const overloads: CheckTexts = {
  id: 'drive.maximum-overloads',
  severity: 'warning',
  title: 'motor or shaft overloaded at the maximum frequency',
  compares:
    'the maximum frequency with that at which a flowing case would load the motor, or the shaft of the pump, fully: a ' +
    'rotary pump’s power grows with the cube of the frequency',
  why: 'A turn of the knob within the limits of the drive overloads the motor, or twists the shaft.',
  mend: 'Lower the maximum frequency, or take a stronger motor or shaft.',
  source: 'affinity laws; the data sheets of motor and pump',
  example: { lift: 'rotary', fails: { 'equipment.pump.shaft_power_max': '30 kW' }, at: MAXIMUM },
};
const baseOff: CheckTexts = {
  id: 'drive.base-frequency',
  severity: 'error',
  title: 'base frequency and motor do not belong together',
  compares:
    'the volts per hertz that drive and tap give the motor with those of its nameplate: beyond 40 % an error, beyond ' +
    '20 % a warning, since the drop of a long cable takes its share',
  why: 'At every frequency the motor gets too much voltage or too little, as when 50 is entered for 60.',
  mend: 'Enter the frequency at which the drive’s rated output, through the tap, is the motor’s voltage.',
  source: 'constant volts per hertz; the limits are common practice, no source',
  example: {
    lift: 'rotary',
    fails: { 'setpoints.drive.voltage_mode': 'volts_per_hertz', [BASE]: '45 Hz' },
    passes: { 'setpoints.drive.voltage_mode': 'volts_per_hertz', [BASE]: '57 Hz' },
    at: BASE,
  },
};

const DRIVE_LIMITS = { kind: 'frequency', hard: true, formula: 'as entered' } as const;

/** A bound that is another entry. */
function entered(
  check: CheckTexts,
  place: { readonly id: string; readonly side: Side; readonly path: string; readonly excludesItself?: boolean },
  limitName: string,
  consequence: string,
): Bound {
  return bound({
    ...DRIVE_LIMITS,
    ...{ check, limitName, consequence, id: place.id, side: place.side },
    excludesItself: place.excludesItself ?? false,
    when: [present(place.path)],
    inputs: { number: entry(place.path) },
    compute: ({ number }) => number,
  });
}

function ofCases(id: string, side: Side): Bound {
  return boundAt('motor.frequency', {
    check: operating,
    id,
    side,
    hard: true,
    kind: 'frequency',
    limitName: 'the frequency',
    consequence: 'the drive would not run that case as it says',
  });
}

const CASES = knownCases('motor.frequency');

export const MINIMUM_FREQUENCY: Window = {
  setpoint: MINIMUM,
  title: 'the minimum frequency',
  kind: 'frequency',
  compared: entry(MINIMUM),
  when: [WITH_DRIVE, present(MINIMUM)],
  emptiness: WINDOW_EMPTY,
  bounds: [
    entered(
      outside,
      { id: 'drive.frequency-outside.minimum', side: 'lower', path: `${RANGE}.min` },
      'the lowest frequency of the drive',
      'the drive could not run so slowly',
    ),
    boundAt('pump.no_flow_frequency', {
      check: noFlow,
      side: 'lower',
      hard: true,
      kind: 'frequency',
      limitName: 'the frequency at which the pump just holds the column',
      consequence: 'the pump would move nothing',
    }),
    entered(
      order,
      { id: 'drive.frequency-order.maximum', side: 'upper', path: MAXIMUM, excludesItself: true },
      'the maximum frequency',
      'there would be no frequency between the two',
    ),
    entered(
      order,
      { id: 'drive.frequency-order.base', side: 'upper', path: BASE },
      'the base frequency',
      'the drive would never run below its base',
    ),
    ofCases('drive.operating-outside-limits.minimum', 'upper'),
  ],
  recommendation: recommend({
    rule: 'a tenth below the lowest frequency of any case, within the window',
    inputs: { frequencies: CASES },
    choose: ({ frequencies }, { hardLower, hardUpper }) => {
      const lowest = Math.min(...frequencies.filter(Number.isFinite));
      return readable(within((1 - ROOM) * lowest, hardLower, hardUpper), hardLower, hardUpper);
    },
  }),
};

export const MAXIMUM_FREQUENCY: Window = {
  setpoint: MAXIMUM,
  title: 'the maximum frequency',
  kind: 'frequency',
  compared: entry(MAXIMUM),
  when: [WITH_DRIVE, present(MAXIMUM)],
  emptiness: WINDOW_EMPTY,
  bounds: [
    ofCases('drive.operating-outside-limits.maximum', 'lower'),
    entered(
      outside,
      { id: 'drive.frequency-outside.maximum', side: 'upper', path: `${RANGE}.max` },
      'the highest frequency of the drive',
      'the drive could not run so fast',
    ),
    entered(
      aboveMotor,
      { id: 'drive.frequency-above-motor', side: 'upper', path: 'equipment.motor.max_frequency' },
      'the highest frequency of the motor',
      'the motor is not made for it',
    ),
    boundAt('pump.housing_limit_frequency', {
      check: housing,
      side: 'upper',
      hard: true,
      kind: 'frequency',
      when: [present('equipment.pump.pressure_max')],
      limitName: 'the frequency at which the housing stands its most against a closed valve',
      consequence: 'a closed valve would burst the housing',
    }),
    boundAt('transformer.highest_frequency', {
      check: beyondTap,
      side: 'upper',
      hard: false,
      kind: 'frequency',
      limitName: 'the highest frequency that the tap serves',
      consequence: 'the drive would be out of voltage or of current there',
    }),
    boundAt('motor.full_load_frequency', {
      check: overloads,
      id: 'drive.maximum-overloads.motor',
      side: 'upper',
      hard: false,
      kind: 'frequency',
      limitName: 'the frequency at which the motor is fully loaded',
      consequence: 'the motor would be overloaded there',
    }),
    boundAt('pump.shaft_limit_frequency', {
      check: overloads,
      id: 'drive.maximum-overloads.shaft',
      side: 'upper',
      hard: false,
      kind: 'frequency',
      limitName: 'the frequency at which the shaft is fully loaded',
      consequence: 'the shaft would be overloaded there',
    }),
  ],
  recommendation: recommend({
    rule: 'a tenth above the highest frequency of any case, within the window',
    inputs: { frequencies: CASES },
    choose: ({ frequencies }, { hardLower, hardUpper, upper }) => {
      const highest = Math.max(...frequencies.filter(Number.isFinite));
      const most = Math.max(hardLower, Math.min(hardUpper, upper));
      return readable(within((1 + ROOM) * highest, hardLower, most), hardLower, most);
    },
  }),
};

/** The ends of the range in which a base frequency belongs to the motor. */
function matching(share: string, hard: boolean, side: Side): Bound {
  const sign = side === 'lower' ? -1 : 1;
  return bound({
    check: hard ? baseOff : { ...baseOff, severity: 'warning' },
    id: `drive.base-frequency.${hard ? 'hard' : 'soft'}-${side}`,
    side,
    hard,
    kind: 'frequency',
    limitName: 'what the motor’s nameplate allows',
    consequence: `the motor would get too ${side === 'lower' ? 'much' : 'little'} voltage at every frequency`,
    formula: `V_output·(V_t/V_1)·f_r/V_r × (1 ${sign < 0 ? '−' : '+'} limit)`,
    inputs: { base: value('drive.matching_base_frequency'), off: limit(share) },
    compute: ({ base, off }) => base * (1 + sign * off),
  });
}

export const BASE_FREQUENCY: Window = {
  setpoint: BASE,
  title: 'the base frequency',
  kind: 'frequency',
  compared: entry(BASE),
  when: [WITH_DRIVE, VOLTS_PER_HERTZ, present(BASE)],
  emptiness: WINDOW_EMPTY,
  bounds: [
    matching('drive.base-frequency', false, 'lower'),
    matching('drive.base-frequency', false, 'upper'),
    matching('drive.base-frequency.error', true, 'lower'),
    matching('drive.base-frequency.error', true, 'upper'),
  ],
  recommendation: recommend({
    rule: 'the highest base frequency at which the line still gives each case its voltage, within the window',
    inputs: {
      frequencies: CASES,
      voltages: knownCases('drive.output_voltage'),
      output: entry('equipment.drive.output_voltage'),
      boost: entryOr('setpoints.drive.boost', 0, 'no boost where none is entered'),
    },
    choose: ({ frequencies, voltages, output, boost }, { lower, upper }) => {
      const bases = frequencies.map((each, at) => (output * each) / ((voltages[at] ?? Number.NaN) - boost));
      return readable(within(Math.min(...bases.filter(Number.isFinite)), lower, upper), lower, upper);
    },
  }),
};
