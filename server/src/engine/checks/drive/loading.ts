import { WITH_DRIVE } from '../../values/conditions.ts';
import { limit, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { type Loaded, nearRating, overloaded } from '../loading.ts';
import { following, mendedByLowerTap, TAP_CHOICE } from '../tap/alternatives.ts';

const OUTPUT = 'equipment.drive.output_current';
const MEND = 'Take a larger drive, or keep it cooler.';

const LOADING = {
  current: value('drive.output_current'),
  rating: value('drive.current_rating'),
  most: limit('drive.overcurrent'),
};

function loadedWith({ current, rating }: { current: number; rating: number }): Loaded {
  return {
    key: OUTPUT,
    does: 'The drive must give',
    demand: { number: current, kind: 'current' },
    rating: { number: rating, kind: 'current' },
    ratingIs: 'that it may give with heat and altitude allowed for',
    mend: MEND,
  };
}

export const OVERCURRENT: Check = check({
  id: 'drive.overcurrent',
  severity: 'error',
  title: 'drive overloaded',
  compares:
    'the current that the drive must give through the transformer with its rating, derated for ambient and altitude',
  why: 'The drive trips on its own overload, on a hot day or with a heavy liquid, and the motor is blamed.',
  mend: MEND,
  source: 'the drive’s data sheet',
  example: { lift: 'linear', fails: { [OUTPUT]: '25 A' }, at: OUTPUT },
  when: [WITH_DRIVE],
  needs: { ...TAP_CHOICE, ...LOADING },
  run: ({ current, rating, most, ...choice }, context) => {
    const verdict = overloaded(context, loadedWith({ current, rating }), most);
    return following(verdict, mendedByLowerTap(choice, rating / current), 'tap.above-window');
  },
});

export const NEAR_RATING: Check = check({
  id: 'drive.near-rating',
  severity: 'warning',
  title: 'drive near its rating',
  compares: 'the current that the drive must give with most of its rating, derated for ambient and altitude',
  why: 'Little is left for a heavier liquid, a hotter day or a worn pump.',
  mend: MEND,
  source: 'common practice, no source; the drive’s data sheet',
  example: { lift: 'linear', fails: { [OUTPUT]: '31 A' }, at: OUTPUT },
  when: [WITH_DRIVE],
  needs: { ...LOADING, comfortable: limit('drive.near-rating') },
  run: (seen, context) => nearRating(context, loadedWith(seen), seen.comfortable, seen.most),
});
