import type { Mistake } from './mistake.ts';

const P = 'setpoints.protection';
const OVER = `${P}.overvoltage`;
const UNDER = `${P}.undervoltage`;
const UNBALANCE = `${P}.voltage_unbalance`;
const EARTH = `${P}.earth_fault`;
const HOT = `${P}.motor_temperature_high`;
const SHAKES = `${P}.vibration_high`;

/** Voltage, earth-fault, temperature and vibration trips. */
export const VOLTAGES: readonly Mistake[] = [
  {
    id: 'overvoltage-below-supply',
    did: 'set the overvoltage below the supply',
    well: 'qm-a1',
    edits: { [`${OVER}.trip`]: '360 V' },
  },
  {
    id: 'overvoltage-of-the-other-pad',
    did: 'copied the overvoltage from the 400 V pad',
    well: 'qm-b2',
    edits: { [`${OVER}.trip`]: '460 V' },
  },
  {
    id: 'overvoltage-inside-tolerance',
    did: 'set the trip within what the grid may do',
    well: 'qm-a1',
    edits: { [`${OVER}.trip`]: '420 V' },
  },
  {
    id: 'overvoltage-secondary',
    did: 'entered the voltage behind the transformer, 115 % of 900 V',
    well: 'qm-a1',
    edits: { [`${OVER}.trip`]: '1035 V' },
  },
  {
    id: 'overvoltage-extra-zero',
    did: 'typed a zero too many',
    well: 'qm-b3',
    edits: { [`${OVER}.trip`]: '5400 V' },
  },
  {
    id: 'overvoltage-forgotten',
    did: 'forgot the overvoltage',
    well: 'qm-b1',
    edits: { [OVER]: null },
    also: [P],
  },
  {
    id: 'overvoltage-delay-zero',
    did: 'left the delay at zero',
    well: 'qm-a2',
    edits: { [`${OVER}.delay`]: '0 s' },
  },
  {
    id: 'voltage-trips-swapped',
    did: 'swapped overvoltage and undervoltage',
    well: 'qm-a3',
    edits: { [`${OVER}.trip`]: '348 V', [`${UNDER}.trip`]: '452 V' },
  },
  {
    id: 'undervoltage-dropped-digit',
    did: 'dropped a digit',
    well: 'qm-a1',
    edits: { [`${UNDER}.trip`]: '34 V' },
  },
  {
    id: 'undervoltage-inside-tolerance',
    did: 'set the trip within what the grid may do',
    well: 'qm-b2',
    edits: { [`${UNDER}.trip`]: '470 V' },
  },
  {
    id: 'undervoltage-phase',
    did: 'entered the phase voltage for the voltage between lines',
    well: 'qm-b1',
    edits: { [`${UNDER}.trip`]: '240 V' },
  },
  {
    id: 'undervoltage-secondary',
    did: 'entered the voltage behind the transformer, 85 % of 1440 V',
    well: 'qm-a3',
    edits: { [`${UNDER}.trip`]: '1224 V' },
  },
  {
    id: 'undervoltage-of-the-other-pad',
    did: 'copied the undervoltage from the 480 V pad',
    well: 'qm-a2',
    edits: { [`${UNDER}.trip`]: '415 V' },
  },
  {
    id: 'undervoltage-forgotten',
    did: 'forgot the undervoltage',
    well: 'qm-b3',
    edits: { [UNDER]: null },
    also: [P],
  },
  {
    id: 'voltage-unbalance-point-lost',
    did: 'typed a zero too many',
    well: 'qm-a1',
    edits: { [`${UNBALANCE}.trip`]: '40 %' },
  },
  {
    id: 'voltage-unbalance-as-for-current',
    did: 'gave the voltage the unbalance of the current',
    well: 'qm-b1',
    edits: { [`${UNBALANCE}.trip`]: '12 %' },
  },
  {
    id: 'voltage-unbalance-inverted',
    did: 'swapped alarm and trip',
    well: 'qm-b2',
    edits: { [`${UNBALANCE}.trip`]: '2 %', [`${UNBALANCE}.alarm`]: '4.5 %' },
  },
  {
    id: 'earth-fault-inverted',
    did: 'swapped alarm and trip, as if resistance rose with a fault',
    well: 'qm-a1',
    edits: { [`${EARTH}.trip`]: '1 Mohm', [`${EARTH}.alarm`]: '0.1 Mohm' },
  },
  {
    id: 'earth-fault-point-slipped',
    did: 'slipped the decimal point twice',
    well: 'qm-a3',
    edits: { [`${EARTH}.trip`]: '0.0012 Mohm' },
  },
  {
    id: 'earth-fault-forgotten',
    did: 'forgot the earth fault',
    well: 'qm-b2',
    edits: { [EARTH]: null },
    also: [P],
  },
  {
    id: 'earth-fault-off',
    did: 'left the earth fault switched off, as the old gauge tripped it',
    well: 'qm-a2',
    edits: { [`${EARTH}.enabled`]: 'no' },
    also: [EARTH],
  },
  {
    id: 'earth-fault-warns',
    did: 'let an earth fault only warn',
    well: 'qm-b3',
    edits: { [`${EARTH}.response`]: 'warn_only' },
    also: [EARTH],
  },
  {
    id: 'earth-fault-slow',
    did: 'gave the earth fault a delay of minutes',
    well: 'qm-b1',
    edits: { [`${EARTH}.delay`]: '5 min' },
  },
  {
    id: 'motor-temperature-digits-swapped',
    did: 'swapped the digits: above what the winding bears',
    well: 'qm-a1',
    edits: { [`${HOT}.trip`]: '215 degC' },
  },
  {
    id: 'motor-temperature-below-running',
    did: 'dropped a digit: below what the motor runs at',
    well: 'qm-a1',
    edits: { [HOT]: '{ trip: 62 degC, alarm: 58 degC, reset: 50 degC, delay: 20 s }' },
  },
  {
    id: 'motor-temperature-above-rating',
    did: 'set the trip above the insulation of the winding',
    well: 'qm-a3',
    edits: { [`${HOT}.trip`]: '190 degC' },
  },
  {
    id: 'motor-temperature-above-rating-fahrenheit',
    did: 'set the trip above the insulation of the winding',
    well: 'qm-b2',
    edits: { [`${HOT}.trip`]: '380 degF' },
  },
  {
    id: 'motor-temperature-above-magnets',
    did: 'set the trip by the insulation, above what the magnets bear',
    well: 'qm-a1',
    edits: { [`${HOT}.trip`]: '165 degC' },
  },
  {
    id: 'motor-temperature-inverted',
    did: 'swapped alarm and trip',
    well: 'qm-b1',
    edits: { [`${HOT}.trip`]: '140 degC', [`${HOT}.alarm`]: '155 degC' },
  },
  {
    id: 'motor-temperature-reset-above-trip',
    did: 'swapped two digits of the reset, which is now above the trip',
    well: 'qm-a2',
    edits: { [`${HOT}.reset`]: '151 degC' },
  },
  {
    id: 'motor-temperature-forgotten',
    did: 'forgot the temperature of the motor, which the gauge measures',
    well: 'qm-b3',
    edits: { [HOT]: null },
    also: [P],
  },
  {
    id: 'motor-temperature-delay-blank',
    did: 'left the delay blank',
    well: 'qm-a1',
    edits: { [`${HOT}.delay`]: '' },
    also: [HOT],
  },
  {
    id: 'intake-temperature-below-running',
    did: 'set the intake temperature below that of the well',
    well: 'qm-a2',
    edits: { [`${P}.intake_temperature_high`]: '{ trip: 35 degC, alarm: 30 degC, reset: 25 degC, delay: 20 s }' },
  },
  {
    id: 'vibration-inverted',
    did: 'swapped alarm and trip',
    well: 'qm-b1',
    edits: { [`${SHAKES}.trip`]: '8 mm/s', [`${SHAKES}.alarm`]: '12 mm/s' },
  },
  {
    id: 'vibration-outside-gauge',
    did: 'typed a zero too many, beyond the range of the gauge',
    well: 'qm-b1',
    edits: { [`${SHAKES}.trip`]: '120 mm/s' },
  },
];
