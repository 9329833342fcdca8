import { entry, limit, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Offer } from '../declare.ts';
import { reaches } from '../reaches.ts';
import { lengthKey } from './runs.ts';

const FEET_PER_METRE = 1 / 0.3048;
/** How closely a length must come to the depth in the other unit to be taken for it. */
const SAME = 0.02;
const DEPTH = 'well.intake.md';
const LENGTH = 'equipment.cable.main.length';

const NEEDS = { margin: value('cable.length_margin'), md: entry(DEPTH), main: value('cable.main_length') };
const RELATED = [{ key: DEPTH, message: 'the depth of the intake along the hole' }];

/** The other unit in which the number of the length would be the depth. */
function otherUnit(main: number, md: number): 'feet' | 'metres' | undefined {
  if (Math.abs((main * FEET_PER_METRE) / md - 1) <= SAME) return 'metres';
  return Math.abs(main / FEET_PER_METRE / md - 1) <= SAME ? 'feet' : undefined;
}

function shown(context: CheckContext, length: number): string {
  return context.show(length, 'depth', lengthKey(context));
}

/** The same number in the unit that it is the depth in. */
function unitOffer(context: CheckContext, meant: 'feet' | 'metres'): Offer {
  const key = lengthKey(context);
  const number = context.text(key).replace(/\s*[a-z]+$/i, '');
  const newText = `${number} ${meant === 'feet' ? 'ft' : 'm'}`;
  return { title: `Write ${newText}: drop and resistance follow it`, kind: 'offer', key, newText };
}

export const CABLE_TOO_SHORT: Check = check({
  id: 'cable.too-short',
  severity: 'error',
  title: 'cable does not reach the motor',
  compares: 'main cable and motor lead together with the depth of the intake along the hole',
  why: 'The cable ends above the motor. It is noticed when the string is nearly in.',
  mend: 'Look at lengths and depth with their units; order the cable with an allowance for the wellhead.',
  source: 'geometry',
  example: { lift: 'linear', fails: { [LENGTH]: '1390 m' }, at: LENGTH },
  needs: NEEDS,
  run: ({ margin, md, main }, context) => {
    if (reaches(md + margin, md)) return { margin: { number: margin, kind: 'depth' } };
    return {
      key: lengthKey(context),
      message: `Cable and lead together are ${shown(context, md + margin)} long, ${shown(context, -margin)} less than the depth of the intake along the hole, ${shown(context, md)}. Use a longer cable, or correct length or depth.`,
      value: { number: md + margin, kind: 'depth' },
      limit: { number: md, kind: 'depth' },
      related: [...RELATED, { key: lengthKey(context), message: `${shown(context, main)} of it is main cable` }],
    };
  },
});

export const CABLE_MUCH_TOO_LONG: Check = check({
  id: 'cable.much-too-long',
  severity: 'warning',
  title: 'cable much longer than the well needs',
  compares: 'the excess of cable and lead over the depth of the intake with 5 % and 50 m, both of which it must exceed',
  why: 'Length or depth is wrong; the voltage drop is reckoned for cable that is not there.',
  mend: 'Correct the length to what is run, or the depth.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [LENGTH]: '1600 m' }, at: LENGTH },
  needs: { ...NEEDS, share: limit('cable.much-too-long'), length: limit('cable.much-too-long.length') },
  run: ({ margin, md, share, length }, context) => {
    const most = Math.max(share * md, length);
    if (margin <= most) return { margin: { number: most - margin, kind: 'depth' } };
    return {
      key: lengthKey(context),
      message: `Cable and lead together are ${shown(context, md + margin)} long, ${shown(context, margin)} more than the depth of the intake along the hole; more than ${shown(context, most)} points to a slip. Enter the length that is run, or correct the depth.`,
      value: { number: margin, kind: 'depth' },
      limit: { number: most, kind: 'depth' },
      related: RELATED,
      follows: ['cable.shorter-than-depth-in-feet'],
    };
  },
});

export const CABLE_SHORTER_THAN_DEPTH_IN_FEET: Check = check({
  id: 'cable.shorter-than-depth-in-feet',
  severity: 'warning',
  title: 'length of the cable is the depth in another unit',
  compares: 'the number of the cable’s length with the depth of the intake in feet and in metres',
  why: 'A length in metres for a depth in feet is off by more than three times: drop and resistance with it.',
  mend: 'Write the unit that belongs to the number.',
  source: '1 ft = 0.3048 m',
  example: { lift: 'linear', fails: { [LENGTH]: '4658 m' }, at: LENGTH },
  needs: NEEDS,
  run: ({ main, md }, context) => {
    const meant = otherUnit(main, md);
    if (meant === undefined) return undefined;
    return {
      key: lengthKey(context),
      message: `The number in a main cable of ${shown(context, main)} is the depth of the intake, ${shown(context, md)}, in ${meant}. Look at the unit of the length.`,
      value: { number: main, kind: 'depth' },
      limit: { number: md, kind: 'depth' },
      related: RELATED,
      fixes: [unitOffer(context, meant)],
      ...(meant === 'metres' ? { follows: ['cable.too-short'] } : {}),
    };
  },
});
