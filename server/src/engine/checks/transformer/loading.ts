import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import { entry, limit, value } from '../../values/declare.ts';
import { ROOT3 } from '../../values/physics.ts';
import { type Check, check } from '../declare.ts';
import { type Loaded, nearRating, overloaded } from '../loading.ts';
import { following, mendedByLowerTap, TAP_CHOICE } from '../tap/alternatives.ts';

const POWER = 'equipment.transformer.power';
const RATING_SOURCE = 'rated flux at rated frequency, any machines text: the rating goes with frequency below it';
const LARGER = 'Take a larger transformer, or a lighter duty.';

const LOADING = {
  apparent: value('transformer.apparent_power'),
  loading: value('transformer.loading'),
  most: limit('transformer.overload'),
};

function loadedWith({ apparent, loading }: { apparent: number; loading: number }): Loaded {
  return {
    key: POWER,
    does: 'The transformer carries',
    demand: { number: apparent, kind: 'apparent_power' },
    rating: { number: apparent / loading, kind: 'apparent_power' },
    ratingIs: 'that it is rated for at that frequency',
    mend: LARGER,
  };
}

export const OVERLOAD: Check = check({
  id: 'transformer.overload',
  severity: 'error',
  title: 'transformer overloaded',
  compares: 'the apparent power at the surface with the rating of the transformer at the frequency of the case',
  why: 'The windings run hotter than their insulation is made for; its life halves with every few kelvin.',
  mend: LARGER,
  source: RATING_SOURCE,
  example: { lift: 'linear', fails: { [POWER]: '18 kVA' }, at: POWER },
  when: [WITH_TRANSFORMER],
  needs: LOADING,
  run: (seen, context) => overloaded(context, loadedWith(seen), seen.most),
});

export const NEAR_RATING: Check = check({
  id: 'transformer.near-rating',
  severity: 'warning',
  title: 'transformer near its rating',
  compares: 'the apparent power at the surface with most of the rating of the transformer at that frequency',
  why: 'Heat, dust or a heavier liquid than planned overloads it.',
  mend: LARGER,
  source: `common practice, no source; ${RATING_SOURCE}`,
  example: { lift: 'linear', fails: { [POWER]: '19.7 kVA' }, at: POWER },
  when: [WITH_TRANSFORMER],
  needs: { ...LOADING, comfortable: limit('transformer.near-rating') },
  run: (seen, context) => nearRating(context, loadedWith(seen), seen.comfortable, seen.most),
});

export const WINDING_CURRENT: Check = check({
  id: 'transformer.winding-current',
  severity: 'error',
  title: 'current of the winding above its rating',
  compares: 'the current of the motor with the rated current of the tap, rated power over √3 times its voltage',
  why: 'The apparent power may look well while a winding at less than its voltage carries more than its current.',
  mend: 'Take a lower tap if one serves, else a larger transformer.',
  source: 'rated current of a tapping, IEC 60076-1 (from memory)',
  example: { lift: 'linear', fails: { [POWER]: '19.7 kVA' }, at: POWER },
  when: [WITH_TRANSFORMER],
  needs: { ...TAP_CHOICE, current: value('motor.current'), power: entry(POWER), tap: value('transformer.tap_voltage') },
  run: ({ current, power, ...choice }, context) => {
    const rating = power / (ROOT3 * choice.tap);
    const verdict = overloaded(context, windingOf(current, rating), 1);
    return following(verdict, mendedByLowerTap(choice, rating / current), 'tap.above-window');
  },
});

function windingOf(current: number, rating: number): Loaded {
  return {
    key: POWER,
    does: 'The winding of the transformer carries',
    demand: { number: current, kind: 'current' },
    rating: { number: rating, kind: 'current' },
    ratingIs: 'that it is rated for on this tap',
    mend: 'No lower tap serves. Take a larger transformer, or a lighter duty.',
  };
}
