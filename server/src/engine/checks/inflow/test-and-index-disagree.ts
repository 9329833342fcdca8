import { present } from '../../values/conditions.ts';
import { entry, limit, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { differs } from '../difference.ts';

const INDEX = 'reservoir.productivity_index';
const TEST = 'reservoir.test';

export const INFLOW_TEST_AND_INDEX_DISAGREE: Check = check({
  id: 'inflow.test-and-index-disagree',
  severity: 'warning',
  title: 'test and productivity index disagree',
  compares:
    'the stated productivity index with the one that the test gives, where both are entered; a tenth is allowed',
  why: 'The index is used and the test is not: if they differ, one of them is not of this well, or no longer.',
  mend: 'Correct the one that is wrong, or take it out.',
  source: 'straight line above the bubble point, Vogel 1968 below; the limit is common practice, no source',
  example: {
    lift: 'linear',
    fails: { [TEST]: '{ rate: 9 m3/d, flowing_pressure: 60 bar }' },
    passes: { [TEST]: '{ rate: 9 m3/d, flowing_pressure: 48 bar }' },
    at: INDEX,
  },
  when: [present(INDEX), present(TEST)],
  needs: {
    index: entry(INDEX),
    tested: value('inflow.index_from_test'),
    most: limit('inflow.test-and-index-disagree'),
  },
  run: ({ index, tested, most }, context) =>
    differs(context, {
      key: INDEX,
      value: { number: index, kind: 'productivity_index' },
      due: { number: tested, kind: 'productivity_index' },
      most,
      says: (own, other, apart) =>
        `The productivity index is entered as ${own}, and the test gives ${other}, ${apart} apart. The entered one is used: correct or take out the one that is wrong.`,
      related: [{ key: TEST, message: 'the test' }],
    }),
});
