import { switchedOn } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import { type Check, check, type Judgement } from '../declare.ts';

const TRIP = 'setpoints.protection.earth_fault.trip';
const MILLIOHM = 'mohm';

export const EARTH_FAULT_LOW: Check = check({
  id: 'earth-fault.low',
  severity: 'warning',
  title: 'earth-fault trip too low',
  compares: 'the insulation resistance at which the earth-fault protection trips with the least that is usual',
  why: 'So low a resistance is a fault that has happened. It is mostly a slip of the unit: mohm is a milliohm, Mohm a megohm.',
  mend: 'Look at number and unit: Mohm, with a capital, is a million ohm.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TRIP]: '2 kohm' }, at: TRIP },
  when: switchedOn('earth_fault'),
  needs: { trip: entry(TRIP), least: limit('earth-fault.low') },
  run: ({ trip, least }, context) => {
    const written = context.quantity(TRIP);
    const isMilliohm = written?.unit === MILLIOHM;
    if (trip >= least && !isMilliohm) return { margin: { number: trip - least, kind: 'resistance' } };
    const show = (resistance: number) => context.show(resistance, 'resistance');
    const judgement: Judgement = {
      key: TRIP,
      message: `The earth-fault trip of ${context.show(trip, 'resistance', TRIP)} is below ${show(least)}: the insulation has failed long before. Look at number and unit.`,
      value: { number: trip, kind: 'resistance' },
      limit: { number: least, kind: 'resistance' },
    };
    const meant = `${written?.number ?? 0} Mohm`;
    const fixes = [{ title: `Write ${meant}`, kind: 'offer', key: TRIP, newText: meant }] as const;
    if (!isMilliohm) return { ...judgement, fixes: written?.unit === 'Mohm' ? [] : fixes };
    return {
      ...judgement,
      message: `The earth-fault trip is written in mohm, thousandths of an ohm: ${context.show(trip, 'resistance', TRIP)}. Was ${meant} meant?`,
      fixes,
    };
  },
});
