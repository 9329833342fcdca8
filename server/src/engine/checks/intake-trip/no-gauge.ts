import { isPresent } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { CHANNEL, IN_USE, TRIP } from './keys.ts';

const MEASURES = 'equipment.gauge.measures';

export const NO_GAUGE: Check = check({
  id: 'intake-trip.no-gauge',
  severity: 'error',
  title: 'intake-pressure trip that nothing measures',
  compares: 'the low intake-pressure trip with the channels of the gauge',
  why: 'The trip never acts, and everybody relies on it.',
  mend: 'Take a gauge that measures intake pressure, or take the trip out and rely on the underload trip.',
  source: 'logic of measuring',
  example: { lift: 'linear', fails: { 'equipment.gauge': null }, at: TRIP },
  when: IN_USE,
  needs: {
    isSet: isPresent(TRIP),
    gauge: isPresent('equipment.gauge'),
    known: isPresent(MEASURES),
    measured: isPresent(CHANNEL),
  },
  run: ({ isSet, gauge, known, measured }) => {
    if (!isSet) return { lacks: [TRIP] };
    if (measured) return undefined;
    if (gauge && !known) return { lacks: [MEASURES] };
    const reason = gauge ? 'the gauge does not measure intake pressure' : 'there is no gauge';
    return {
      key: TRIP,
      message: `An intake-pressure trip is set, and ${reason}: it never acts. Take a gauge that measures it, or take the trip out.`,
    };
  },
});
