import { PERMANENT_MAGNET, present } from '../../values/conditions.ts';
import { entry, limit, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { reaches } from '../reaches.ts';
import { atMost } from '../within.ts';

const INSULATION = 'equipment.motor.insulation_temperature';
const FLUID = 'equipment.motor.fluid_temperature_max';
const MAGNETS = 'equipment.motor.magnet_temperature_max';
const RISE = 'equipment.motor.temperature_rise';
const MEND = 'Take a motor for a higher temperature, or load it less.';
const WINDING = value('motor.winding_temperature');

export const MOTOR_WINDING_TEMPERATURE: Check = check({
  id: 'motor.winding-temperature',
  severity: 'error',
  title: 'winding hotter than its insulation stands',
  compares: 'the winding temperature of each case with the rating of the insulation',
  why: 'The insulation breaks down within weeks.',
  mend: MEND,
  source: 'heating in proportion to the square of the current; the motor’s data sheet',
  example: { lift: 'rotary', fails: { [INSULATION]: '85 degC' }, at: INSULATION },
  needs: { winding: WINDING, most: entry(INSULATION) },
  run: ({ winding, most }, context) =>
    atMost(context, {
      key: INSULATION,
      kind: 'temperature',
      number: winding,
      limit: most,
      says: (own, allowed, apart) =>
        `In the case '${context.caseName}' the winding comes to ${own}, ${apart} above what its insulation stands, ${allowed}. ${MEND}`,
      related: [{ key: RISE, message: 'the rise at rated current' }],
      follows: ['motor.fluid-temperature', 'motor.overload'],
    }),
});

export const MOTOR_TEMPERATURE_MARGIN: Check = check({
  id: 'motor.temperature-margin',
  severity: 'warning',
  title: 'winding close to what its insulation stands',
  compares: 'the distance from the winding temperature of each case to the rating of the insulation with 10 K',
  why: 'Scale on the motor, less flow or a little more current use up what is left.',
  mend: MEND,
  source: 'common practice, no source',
  example: { lift: 'rotary', fails: { [INSULATION]: '110 degC' }, at: INSULATION },
  needs: { winding: WINDING, most: entry(INSULATION), margin: limit('motor.temperature-margin') },
  run: ({ winding, most, margin }, context) => {
    // Above the rating another check speaks.
    if (!reaches(most, winding)) return undefined;
    return atMost(context, {
      key: INSULATION,
      kind: 'temperature',
      number: winding,
      limit: most - margin,
      says: (own) =>
        `In the case '${context.caseName}' the winding comes to ${own}, ${context.showDifference(most - winding, 'temperature', INSULATION)} below what its insulation stands; ${context.showDifference(margin, 'temperature', INSULATION)} should be left. ${MEND}`,
      follows: ['motor.winding-temperature'],
    });
  },
});

export const MOTOR_MAGNET_TEMPERATURE: Check = check({
  id: 'motor.magnet-temperature',
  severity: 'error',
  title: 'magnets hotter than they stand',
  compares:
    'the winding temperature of each case with the highest of the magnets, which are taken to be as hot: the safe side',
  why: 'Above it magnets lose their strength for good, and the motor its force.',
  mend: MEND,
  source: 'any text on permanent-magnet machines; the motor’s data sheet',
  example: { lift: 'linear', fails: { [MAGNETS]: '60 degC' }, at: MAGNETS },
  when: [PERMANENT_MAGNET, present(MAGNETS)],
  needs: { winding: WINDING, most: entry(MAGNETS) },
  run: ({ winding, most }, context) =>
    atMost(context, {
      key: MAGNETS,
      kind: 'temperature',
      number: winding,
      limit: most,
      says: (own, allowed) =>
        `In the case '${context.caseName}' the motor comes to ${own} inside, and its magnets stand ${allowed}. ${MEND}`,
      follows: ['motor.fluid-temperature', 'motor.overload', 'motor.winding-temperature'],
    }),
});

export const MOTOR_FLUID_TEMPERATURE: Check = check({
  id: 'motor.fluid-temperature',
  severity: 'error',
  title: 'well too hot for the motor',
  compares: 'the temperature at the intake with the highest fluid temperature on the motor’s data sheet',
  why: 'Seals, oil and winding have no reserve left before any load is on the motor.',
  mend: 'Take a motor for a higher temperature, and look at the unit of the reservoir temperature.',
  source: 'the motor’s data sheet',
  example: { lift: 'linear', fails: { [FLUID]: '50 degC' }, at: FLUID },
  when: [present(FLUID)],
  needs: { fluid: value('intake.temperature'), most: entry(FLUID) },
  run: ({ fluid, most }, context) =>
    atMost(context, {
      key: FLUID,
      kind: 'temperature',
      number: fluid,
      limit: most,
      says: (own, allowed) =>
        `The well has ${own} at the intake, and the motor is made for ${allowed} at most. Take a motor for a higher temperature, or look at the unit of the reservoir temperature.`,
      related: [{ key: 'reservoir.temperature', message: 'the reservoir temperature' }],
    }),
});
