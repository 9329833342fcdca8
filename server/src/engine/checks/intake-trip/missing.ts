import { NO_WORDS, present } from '../../values/conditions.ts';
import { isPresent, optionalText } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { CHANNEL, TRIP } from './keys.ts';

export const MISSING: Check = check({
  id: 'intake-trip.missing',
  severity: 'warning',
  title: 'no intake-pressure trip although a gauge measures it',
  compares: 'the channels of the gauge with the protections that are set',
  why: 'The gauge would see the well pumped off; without a trip nobody acts on it until the underload trip, if that.',
  mend: 'Set a low intake-pressure trip, inside its window.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { 'setpoints.protection.intake_pressure_low': null }, at: TRIP },
  when: [present(CHANNEL)],
  needs: { isSet: isPresent(TRIP), enabled: optionalText('setpoints.protection.intake_pressure_low.enabled') },
  run: ({ isSet, enabled }) => {
    const isOff = NO_WORDS.includes(enabled ?? '');
    if (isSet && !isOff) return undefined;
    const fact = isSet ? 'its low trip is switched off' : 'no low trip is set';
    return {
      key: TRIP,
      message: `The gauge measures the intake pressure, and ${fact}: nothing stops the unit when the well is pumped off. Set one.`,
    };
  },
});
