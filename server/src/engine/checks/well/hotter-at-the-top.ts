import { present } from '../../values/conditions.ts';
import { entry } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const RESERVOIR = 'reservoir.temperature';
const WELLHEAD = 'well.wellhead.flowing_temperature';

export const WELL_HOTTER_AT_THE_TOP: Check = check({
  id: 'well.hotter-at-the-top',
  severity: 'warning',
  title: 'wellhead as hot as the reservoir, or hotter',
  compares: 'the reservoir temperature with that of the flowing wellhead',
  why:
    'What flows up gives its heat to colder rock, and the little that motor and cable add does not make up for it: ' +
    'one of the two temperatures is wrong, and motor and cable are judged by both.',
  mend: 'Look for swapped digits and for degF entered as degC in either of them.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [RESERVOIR]: '22 degC' }, at: RESERVOIR },
  when: [present(WELLHEAD)],
  needs: { reservoir: entry(RESERVOIR), wellhead: entry(WELLHEAD) },
  run: ({ reservoir, wellhead }, context) => {
    if (reservoir > wellhead) return { margin: { number: reservoir - wellhead, kind: 'temperature_difference' } };
    const show = (temperature: number) => context.show(temperature, 'temperature', RESERVOIR);
    const apart = context.showDifference(wellhead - reservoir, 'temperature', RESERVOIR);
    const hotter = wellhead > reservoir ? `${apart} hotter` : 'no cooler';
    return {
      key: RESERVOIR,
      message: `The reservoir is at ${show(reservoir)} and the flowing wellhead at ${show(wellhead)}, ${hotter}: what flows up a well cools on its way. Look for a figure copied to the wrong place, swapped digits and the units of both.`,
      value: { number: reservoir, kind: 'temperature' },
      limit: { number: wellhead, kind: 'temperature' },
      related: [{ key: WELLHEAD, message: 'the flowing wellhead' }],
      // A temperature that does not suit the depth is the cause of this too.
      follows: ['reservoir.temperature-gradient'],
    };
  },
});
