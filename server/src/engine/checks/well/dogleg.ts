import { limit, optionalValue, value } from '../../values/declare.ts';
import { type Check, checkOfParts, part } from '../declare.ts';
import { atMost } from '../within.ts';

const SURVEY = 'well.survey';

/** A survey that builds angle over the thirty metres around the intake. */
function building(angle: string): string {
  return (
    '[ { md: 0 m, inclination: 0 deg }, { md: 1405 m, inclination: 0 deg }, ' +
    `{ md: 1435 m, inclination: ${angle} }, { md: 1506 m, inclination: ${angle} } ]`
  );
}
const DEPTHS = { 'well.intake': '{ md: 1420 m }', 'well.perforations': '{ md: 1506 m }' };

export const WELL_DOGLEG: Check = checkOfParts(
  {
    id: 'well.dogleg',
    severity: 'warning',
    title: 'the hole bends too sharply',
    compares:
      'the greatest dogleg where pump and motor hang with 1.5 deg/30 m, and the greatest that they are run ' +
      'through with 6 deg/30 m',
    why:
      'Set in a bend, the shaft or the plunger rubs; run through a sharper one, the housing bends and the cable ' +
      'is crushed.',
    mend: 'Set the unit in a straighter stretch, or confirm with the maker that it stands the bend.',
    source: 'common practice, no source',
    example: {
      lift: 'linear',
      fails: { ...DEPTHS, [SURVEY]: building('3 deg') },
      passes: { ...DEPTHS, [SURVEY]: building('1 deg') },
      at: SURVEY,
    },
  },
  [
    part({
      needs: { bend: value('well.setting_dogleg'), most: limit('well.dogleg') },
      run: ({ bend, most }, context) =>
        atMost(context, {
          key: SURVEY,
          kind: 'dogleg',
          number: bend,
          limit: most,
          says: (own, allowed) =>
            `Where the unit is to hang the hole bends by ${own}, more than ${allowed}. Set it in a straighter stretch, or have the maker confirm it.`,
          related: [{ key: 'well.intake.md', message: 'the intake' }],
        }),
    }),
    part({
      needs: {
        bend: value('well.passed_dogleg'),
        setting: optionalValue('well.setting_dogleg'),
        most: limit('well.dogleg.run-through'),
      },
      run: ({ bend, setting, most }, context) => {
        // The bend in which the unit hangs has been reported by the stricter limit.
        if (setting !== undefined && setting >= bend) return undefined;
        return atMost(context, {
          key: SURVEY,
          kind: 'dogleg',
          number: bend,
          limit: most,
          says: (own, allowed) =>
            `On its way down the unit is run through a bend of ${own}, more than ${allowed}. Have the maker confirm that housing and cable stand it.`,
        });
      },
    }),
  ],
);
