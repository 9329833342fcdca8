import { present } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { keyInCase } from '../case-keys.ts';
import { type Check, check, checkOfParts, type Part, part } from '../declare.ts';
import { reaches } from '../reaches.ts';
import { swapOffer } from '../swap.ts';
import { atLeast, atMost } from '../within.ts';

interface Diameter {
  readonly key: string;
  readonly title: string;
}

const DRIFT: Diameter = { key: 'well.casing.drift', title: 'drift of the casing' };
const CASING: Diameter = { key: 'well.casing.inner_diameter', title: 'inner diameter of the casing' };
const OUTSIDE: Diameter = { key: 'well.tubing.outer_diameter', title: 'outer diameter of the tubing' };
const INSIDE: Diameter = { key: 'well.tubing.inner_diameter', title: 'inner diameter of the tubing' };

/** Two diameters of one tube, or of its gauge, may have changed places; those of two tubes rest on different pages. */
function sameTube(inner: Diameter, outer: Diameter): boolean {
  const tubeOf = ({ key }: Diameter) => key.slice(0, key.lastIndexOf('.'));
  return tubeOf(inner) === tubeOf(outer);
}

/** What goes inside must be smaller; a drift may be as wide as the bore that it is the gauge of. */
function nested(inner: Diameter, outer: Diameter, mayEqual = false): Part {
  return part({
    when: [present(inner.key), present(outer.key)],
    needs: { inside: entry(inner.key), outside: entry(outer.key) },
    run: ({ inside, outside }, context) => {
      if (mayEqual ? reaches(outside, inside) : inside < outside) return undefined;
      return {
        key: inner.key,
        message: `The ${inner.title}, ${context.show(inside, 'small_length', inner.key)}, does not go into the ${outer.title}, ${context.show(outside, 'small_length', outer.key)}. Look for inner and outer diameter in each other’s place, and at the units.`,
        value: { number: inside, kind: 'small_length' },
        limit: { number: outside, kind: 'small_length' },
        related: [{ key: outer.key, message: `the ${outer.title}` }],
        fixes: inside > outside && sameTube(inner, outer) ? swapOffer(context, inner.key, outer.key) : [],
      };
    },
  });
}

export const WELL_TUBING_IN_CASING: Check = checkOfParts(
  {
    id: 'well.tubing-in-casing',
    severity: 'error',
    title: 'diameters that cannot nest',
    compares:
      'bore and outside of the tubing, outside of the tubing and drift of the casing, drift and bore of the casing',
    why: 'One of the diameters is wrong. Friction, cooling and the fit of the unit go by them.',
    mend: 'Look for inner and outer diameter in each other’s place, and at the units.',
    source: 'geometry',
    example: { lift: 'linear', fails: { [OUTSIDE.key]: '130 mm' }, at: OUTSIDE.key },
  },
  [nested(INSIDE, OUTSIDE), nested(OUTSIDE, DRIFT), nested(DRIFT, CASING, true)],
);

/** Share of its outer diameter that the bore of any tubing has at least; the heaviest have three quarters. */
const LEAST_BORE = 0.6;

export const WELL_TUBING_WALL: Check = check({
  id: 'well.tubing-wall',
  severity: 'warning',
  title: 'tubing with an unlikely wall',
  compares: 'the bore of the tubing with 60 % of its outer diameter',
  why: 'One of the two diameters is wrong, and friction and fill time go with the fifth and the second power of the bore.',
  mend: 'Look for swapped digits in bore and outer diameter.',
  source: 'tables of tubing, the heaviest weights included (from memory); the limit is common practice, no source',
  example: { lift: 'linear', fails: { [INSIDE.key]: '26 mm' }, at: INSIDE.key },
  when: [present(INSIDE.key), present(OUTSIDE.key)],
  needs: { inside: entry(INSIDE.key), outside: entry(OUTSIDE.key) },
  run: ({ inside, outside }, context) =>
    atLeast(context, {
      key: INSIDE.key,
      kind: 'small_length',
      number: inside,
      limit: LEAST_BORE * outside,
      says: (own) =>
        `A bore of ${own} in tubing of ${context.show(outside, 'small_length', OUTSIDE.key)} leaves a wall that no tubing has. Look for swapped digits in both.`,
      related: [{ key: OUTSIDE.key, message: 'the outer diameter of the tubing' }],
    }),
});

const TUBING_RATING = 'well.tubing.pressure_rating';
const WELLHEAD_RATING = 'well.wellhead.pressure_rating';

export const WELL_TUBING_ABOVE_RATING: Check = checkOfParts(
  {
    id: 'well.tubing-above-rating',
    severity: 'error',
    title: 'running pressure above a rating',
    compares:
      'the discharge pressure of each case with the rating of the tubing, tubing and casing pressure at surface ' +
      'with that ' +
      'of the wellhead',
    why: 'Tubing or wellhead leaks or bursts in normal running.',
    mend: 'Look at the unit of the rating, or use what stands the pressure.',
    source: 'logic of ratings',
    example: { lift: 'linear', fails: { [TUBING_RATING]: '120 bar' }, at: TUBING_RATING },
  },
  [
    part({
      when: [present(TUBING_RATING)],
      needs: { pressure: value('lift.discharge_pressure'), rating: entry(TUBING_RATING) },
      run: ({ pressure, rating }, context) =>
        atMost(context, {
          key: TUBING_RATING,
          kind: 'pressure',
          number: pressure,
          limit: rating,
          says: (own, most) =>
            `At the pump the tubing holds ${own} in the case '${context.caseName}', and it is rated ${most}. Look at the unit of the rating, or use stronger tubing.`,
        }),
    }),
    part({
      when: [present(WELLHEAD_RATING)],
      needs: { pressure: entry('well.wellhead.tubing_pressure', 'tubing_pressure'), rating: entry(WELLHEAD_RATING) },
      run: ({ pressure, rating }, context) =>
        atMost(context, {
          key: keyInCase(context, 'tubing_pressure', 'well.wellhead.tubing_pressure'),
          kind: 'pressure',
          number: pressure,
          limit: rating,
          says: (own, most) =>
            `A tubing pressure of ${own} is above the rating of the wellhead, ${most}. Look at the units of both.`,
          related: [{ key: WELLHEAD_RATING, message: 'the rating of the wellhead' }],
        }),
    }),
    part({
      when: [present(WELLHEAD_RATING), present('well.wellhead.casing_pressure')],
      needs: { pressure: entry('well.wellhead.casing_pressure'), rating: entry(WELLHEAD_RATING) },
      run: ({ pressure, rating }, context) =>
        atMost(context, {
          key: 'well.wellhead.casing_pressure',
          kind: 'pressure',
          number: pressure,
          limit: rating,
          says: (own, most) =>
            `A casing pressure of ${own} is above the rating of the wellhead, ${most}. Look at the units of both.`,
          related: [{ key: WELLHEAD_RATING, message: 'the rating of the wellhead' }],
        }),
    }),
  ],
);
