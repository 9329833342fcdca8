import { present } from '../../values/conditions.ts';
import { entry } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const TEST = 'reservoir.test';
const FLOWING = `${TEST}.flowing_pressure`;
const RESERVOIR = 'reservoir.pressure';

export const INFLOW_TEST_ABOVE_RESERVOIR: Check = check({
  id: 'inflow.test-above-reservoir',
  severity: 'error',
  title: 'test pressure not below the reservoir pressure',
  compares: 'the flowing pressure of the inflow test with the reservoir pressure, both at the perforations',
  why: 'A well flows only while its pressure is below that of the reservoir: from such a test no inflow follows.',
  mend: 'Look for a slip of a digit or unit in either pressure, and whether one is gauge and the other absolute.',
  source: 'definition of drawdown',
  example: {
    lift: 'linear',
    fails: { [TEST]: '{ rate: 9 m3/d, flowing_pressure: 148 bar }' },
    passes: { [TEST]: '{ rate: 9 m3/d, flowing_pressure: 48 bar }' },
    at: FLOWING,
  },
  when: [present(FLOWING)],
  needs: { flowing: entry(FLOWING), reservoir: entry(RESERVOIR) },
  run: ({ flowing, reservoir }, context) => {
    if (flowing < reservoir) return { margin: { number: reservoir - flowing, kind: 'pressure_difference' } };
    const show = (pressure: number) => context.show(pressure, 'pressure', FLOWING);
    return {
      key: FLOWING,
      message: `The test flowed at ${show(flowing)}, which is not below the reservoir pressure of ${show(reservoir)}: nothing would flow. Look for a slip of a digit or unit in either of them.`,
      value: { number: flowing, kind: 'pressure' },
      limit: { number: reservoir, kind: 'pressure' },
      related: [{ key: RESERVOIR, message: 'the reservoir pressure' }],
    };
  },
});
