import { conciseNumber } from '../../quantity/format.ts';
import { switchedOn } from '../../values/conditions.ts';
import { entry } from '../../values/declare.ts';
import { type Check, checkOfParts, part } from '../declare.ts';
import { keyOf } from './table.ts';

interface Usual {
  readonly name: string;
  readonly title: string;
  /** What is usual, in per cent of the rated current. */
  readonly from: number;
  readonly to: number;
  /** Multiple of the rated current that no such trip is set to on purpose. */
  readonly absurd: number;
}

const USUAL: readonly Usual[] = [
  { name: 'overload', title: 'overload', from: 100, to: 130, absurd: 1.5 },
  { name: 'underload', title: 'underload', from: 40, to: 95, absurd: 1 },
  { name: 'stall', title: 'stall', from: 110, to: 250, absurd: 4 },
  // A motor on the line starts with six to eight times its rated current, and the trip lies above that.
  { name: 'short_circuit', title: 'short-circuit', from: 150, to: 1000, absurd: 14 },
];

export const PROTECTION_ENTERED_AS_PERCENTAGE: Check = checkOfParts(
  {
    id: 'protection.entered-as-percentage',
    severity: 'warning',
    title: 'current trip that looks like a percentage',
    compares: 'a current trip with the rated motor current: as amperes absurd, as a percentage of it usual',
    why: 'Some drives take the trip in per cent of the rated current. A percentage entered as amperes never trips.',
    mend: 'Enter the trip in amperes.',
    source: 'common practice, no source',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.overload.trip': '115 A' },
      at: keyOf('overload.trip'),
    },
  },
  USUAL.map(({ name, title, from, to, absurd }) => {
    const key = `${keyOf(name)}.trip`;
    return part({
      when: [...switchedOn(name), { path: `${keyOf(name)}.side`, isNot: ['drive'] }],
      needs: { trip: entry(key), rated: entry('equipment.motor.current') },
      run: ({ trip, rated }, context) => {
        if (trip < from || trip > to || trip <= absurd * rated) return undefined;
        const meant = context.show((trip / 100) * rated, 'current', key);
        return {
          key,
          message: `The ${title} trip of ${context.show(trip, 'current', key)} is ${conciseNumber(trip / rated)} times the motor's rated ${context.show(rated, 'current', key)}, and reads like ${context.show(trip, 'count')} % of it. Was ${meant} meant?`,
          value: { number: trip, kind: 'current' },
          limit: { number: rated, kind: 'current' },
          related: [{ key: 'equipment.motor.current', message: 'the rated current' }],
          fixes: [{ title: `Write ${meant}`, kind: 'offer', key, newText: meant }],
        };
      },
    });
  }),
);
