import { present } from '../../values/conditions.ts';
import { entry } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atLeast } from '../within.ts';

const RESERVOIR = 'reservoir.temperature';
const WELLHEAD = 'well.wellhead.flowing_temperature';

export const WELL_HOTTER_AT_THE_TOP: Check = check({
  id: 'well.hotter-at-the-top',
  severity: 'warning',
  title: 'wellhead hotter than the reservoir',
  compares: 'the reservoir temperature with that of the flowing wellhead',
  why:
    'What flows up gives its heat to colder rock, and the little that motor and cable add does not make up for it: ' +
    'one of the two temperatures is wrong, and motor and cable are judged by both.',
  mend: 'Look for swapped digits and for degF entered as degC in either of them.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [RESERVOIR]: '22 degC' }, at: RESERVOIR },
  when: [present(WELLHEAD)],
  needs: { reservoir: entry(RESERVOIR), wellhead: entry(WELLHEAD) },
  run: ({ reservoir, wellhead }, context) =>
    atLeast(context, {
      key: RESERVOIR,
      kind: 'temperature',
      number: reservoir,
      limit: wellhead,
      says: (own, top, apart) =>
        `The reservoir is at ${own} and the flowing wellhead at ${top}, ${apart} hotter: what flows up a well cools on its way. Look for swapped digits and for the units of both.`,
      related: [{ key: WELLHEAD, message: 'the flowing wellhead' }],
      // A temperature that does not suit the depth is the cause of this too.
      follows: ['reservoir.temperature-gradient'],
    }),
});
