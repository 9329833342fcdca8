import { describe, expect, it } from 'vitest';
import { insulationAt40 } from '../../server/src/engine/values/readings/insulation.ts';
import { unbalance } from '../../server/src/engine/values/readings/unbalance.ts';
import { agree } from './row.ts';

const percent = (...readings: number[]) => 100 * unbalance(readings);

describe('unbalance', () => {
  agree([
    {
      what: '462, 463, 455 V, %',
      actual: () => percent(462, 463, 455),
      expected: 1.087,
      source: 'CV-3.1: US DOE tip sheet, R',
    },
    { what: '480, 476, 472 V, %', actual: () => percent(480, 476, 472), expected: 0.84, source: 'CV-3.2: R' },
    {
      what: '460, 467, 450 V, %',
      actual: () => percent(460, 467, 450),
      expected: 1.961,
      source: 'CV-3.3: NEMA MG-1 example, R',
    },
    { what: '10 and 12 A, %', actual: () => percent(10, 12), expected: 100 / 11, source: 'D' },
    { what: '203, 210, 212 V, %', actual: () => percent(203, 210, 212), expected: 2.56, source: 'CV-3.4: D' },
    {
      what: '400, 395, 388 V, %',
      actual: () => percent(400, 395, 388),
      expected: 1.606,
      source: 'CV-3.5, trap 0.2: D',
    },
    { what: '1.02, 1.00, 0.99 ohm, %', actual: () => percent(1.02, 1.0, 0.99), expected: 1.661, source: 'CV-3.12: D' },
  ]);

  it('takes the farthest phase, not the first (trap 0.2), and not the whole spread', () => {
    expect(percent(400, 395, 388)).not.toBeCloseTo(1.45, 1);
    expect(percent(480, 476, 472)).not.toBeCloseTo(1.68, 1);
  });

  it('does not care about the order, and is NaN for what is not three readings', () => {
    expect(percent(388, 400, 395)).toBeCloseTo(percent(400, 395, 388), 12);
    expect(percent(400)).toBeNaN();
    expect(percent(0, 0, 0)).toBeNaN();
    expect(percent(400, -395, 388)).toBeNaN();
    expect(percent(400, Number.NaN, 388)).toBeNaN();
  });
});

describe('insulation at 40 degC', () => {
  const source = 'CV-3.7: IEEE 43 halving rule (M), D';
  agree([
    { what: '50 Mohm at 60 degC', actual: () => insulationAt40(50, 60), expected: 200, tolerance: 1e-12, source },
    { what: '400 Mohm at 20 degC', actual: () => insulationAt40(400, 20), expected: 100, tolerance: 1e-12, source },
    { what: '7 Mohm at 40 degC', actual: () => insulationAt40(7, 40), expected: 7, tolerance: 1e-12, source },
    { what: '0.5 Mohm at 30 degC', actual: () => insulationAt40(0.5, 30), expected: 0.25, tolerance: 1e-12, source },
  ]);

  it('is NaN for a reading that is not above zero', () => {
    expect(insulationAt40(0, 20)).toBeNaN();
    expect(insulationAt40(-1, 20)).toBeNaN();
  });
});
