import type { CheckTexts } from '../findings/texts.ts';
import { DIRECT_ON_LINE, notSwitchedOff, WITH_DRIVE } from '../values/conditions.ts';
import { entry, limit, value } from '../values/declare.ts';
import { bound, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readable } from './rounding.ts';
import { namedWithSide } from './sides.ts';

const TRIP = 'setpoints.protection.short_circuit.trip';
const RATIO = value('short_circuit.side_ratio');

const belowStart: CheckTexts = {
  id: 'short-circuit.below-start',
  severity: 'error',
  title: 'short-circuit trip within reach of a healthy current',
  compares:
    'the short-circuit trip with 125 % of the highest current at the peak of a stroke; across the line, of the ' +
    'locked-rotor current',
  why: 'The trip acts without delay: a start or a heavy stroke looks to it like a short circuit.',
  mend: 'Raise the trip to 125 % of the highest healthy current or more.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TRIP]: '15.5 A' }, at: TRIP },
};
const aboveDrive: CheckTexts = {
  id: 'short-circuit.above-drive',
  severity: 'warning',
  title: 'short-circuit trip above what the derated drive can push',
  compares: 'the short-circuit trip with the drive’s current after derating, times its overload',
  why: 'On a hot day or at altitude a drive that is derated pushes less, and the trip may not act.',
  mend: 'Lower the trip below what the derated drive can push.',
  source: 'the drive’s data sheet; current ratio of a transformer, any machines text',
  example: { lift: 'linear', fails: { 'site.ambient.max': '45 degC', [TRIP]: '32 A' }, at: TRIP },
};
const neverActs: CheckTexts = {
  id: 'short-circuit.never-acts',
  severity: 'error',
  title: 'short-circuit trip too high to act',
  compares:
    'the short-circuit trip with the most that the drive can push; across the line, with 70 % of a two-phase fault at ' +
    'the motor at the low end of the supply',
  why: 'Cable and transformer hold a fault at the motor below the trip: it burns on until something else stops it.',
  mend: 'Lower the trip below the least fault current.',
  source: 'circuit law, two phases in series',
  example: { lift: 'linear', fails: { [TRIP]: '2500 A' }, at: TRIP },
};

export const SHORT_CIRCUIT_TRIP: Window = {
  setpoint: TRIP,
  title: 'the short-circuit trip',
  kind: 'current',
  compared: entry(TRIP),
  when: notSwitchedOff('short_circuit'),
  emptiness: WINDOW_EMPTY,
  named: namedWithSide('short-circuit', 'short_circuit', 'motor'),
  bounds: [
    bound({
      check: belowStart,
      side: 'lower',
      hard: true,
      kind: 'current',
      limitName: 'the highest healthy current with a margin',
      consequence: 'a healthy unit would trip',
      formula: '1.25 × highest healthy current',
      inputs: { highest: value('short_circuit.highest_current'), factor: limit('short-circuit.below-start') },
      compute: ({ highest, factor }) => factor * highest,
    }),
    bound({
      check: neverActs,
      id: 'short-circuit.never-acts.drive',
      side: 'upper',
      hard: true,
      kind: 'current',
      when: [WITH_DRIVE],
      limitName: 'the most that the drive can push',
      consequence: 'it would never act',
      formula: 'I_drive × overload ratio × V_1/V_t',
      inputs: { most: value('drive.current_limit_at_motor'), ratio: RATIO },
      compute: ({ most, ratio }) => most * ratio,
    }),
    bound({
      check: neverActs,
      id: 'short-circuit.never-acts.line',
      side: 'upper',
      hard: true,
      kind: 'current',
      when: [DIRECT_ON_LINE],
      limitName: 'the share of a two-phase fault at the motor that a trip must see',
      consequence: 'a fault at the motor would burn on',
      formula: '0.7 × two-phase fault at the motor',
      inputs: { fault: value('cable.fault_current'), share: limit('short-circuit.never-acts'), ratio: RATIO },
      compute: ({ fault, share, ratio }) => share * fault * ratio,
    }),
    bound({
      check: aboveDrive,
      side: 'upper',
      hard: false,
      kind: 'current',
      when: [WITH_DRIVE],
      limitName: 'the most that the derated drive can push',
      consequence: 'on a hot day it might not act',
      formula: 'I_drive × derating × overload ratio × V_1/V_t',
      inputs: { most: value('drive.derated_limit_at_motor'), ratio: RATIO },
      compute: ({ most, ratio }) => most * ratio,
    }),
  ],
  recommendation: recommend({
    rule: 'the geometric middle of the window',
    inputs: {},
    choose: (_, { hardLower, hardUpper, upper }) =>
      readable(Math.sqrt(hardLower * Math.min(hardUpper, upper)), hardLower, hardUpper),
  }),
};
