import { describe, expect, it } from 'vitest';
import { flowingPressure, indexFromTest, inflowRate, maxRate } from '../../server/src/engine/values/inflow/curve.ts';
import { agree } from './row.ts';

// The examples are in psi and stb/d; the formulas are homogeneous, so their numbers go in as they are.
const vogel = 'CV-4.7: Ahmed example (M), recomputed';
const saturated = { reservoirPressure: 2500, bubblePoint: 2500, index: indexFromTest(350, 2000, 2500, 2500) };
const joined = 'CV-4.8: Ahmed example (M), recomputed';
const undersaturated = { reservoirPressure: 3000, bubblePoint: 2130, index: 0.5 };

const rateRows = (
  curve: typeof saturated,
  rows: readonly (readonly [pressure: number, rate: number])[],
  source: string,
) =>
  rows.map(([pressure, expected]) => ({
    what: `rate at ${pressure} of ${curve.reservoirPressure} psi`,
    actual: () => inflowRate(curve, pressure),
    expected,
    tolerance: 1.2e-3,
    source,
  }));

describe('inflow', () => {
  agree([
    ...rateRows(
      saturated,
      [
        [2200, 218.2],
        [1850, 441.7],
        [1500, 631.7],
        [1000, 845.1],
        [500, 990.3],
        [0, 1067.1],
      ],
      vogel,
    ),
    { what: 'q_max, saturated', actual: () => maxRate(saturated), expected: 1067.1, source: vogel },
    ...rateRows(
      undersaturated,
      [
        [2800, 100],
        [2600, 200],
        [2130, 435],
        [1500, 709],
        [1000, 867],
        [500, 973],
        [0, 1027],
      ],
      joined,
    ),
    {
      what: 'J from a test above p_b',
      actual: () => indexFromTest(250, 2500, 3000, 2130),
      expected: 0.5,
      source: joined,
    },
    {
      what: 'J from a test below p_b',
      actual: () => indexFromTest(630.7, 1700, 3000, 2130),
      expected: 0.5,
      source: 'CV-4.9: Ahmed example (M)',
    },
    {
      what: 'J of a water well',
      actual: () => indexFromTest(850, 2600, 3200, 0),
      expected: 1.417,
      source: 'CV-4.10: inputs R',
    },
    {
      what: 'p_wf at 2300 bbl/d, straight line',
      actual: () => flowingPressure({ reservoirPressure: 3200, bubblePoint: 0, index: 850 / 600 }, 2300),
      expected: 1576.5,
      source: 'CV-4.10: inputs R, answer M/D',
    },
  ]);

  // Vogel's dimensionless curve q/q_max, JPT January 1968; the formula read in a public copy.
  agree(
    [
      [0.2, 0.928],
      [0.4, 0.792],
      [0.5, 0.7],
      [0.6, 0.592],
      [0.8, 0.328],
    ].map(([x, expected]) => ({
      what: `Vogel's q/q_max at ${x}`,
      actual: () => inflowRate(saturated, x! * 2500) / maxRate(saturated),
      expected: expected!,
      tolerance: 1e-9,
      source: "D from Vogel's formula, R",
    })),
  );

  it('is inverted exactly, on both sides of the bubble point', () => {
    for (const pressure of [0, 1, 400, 2129, 2130, 2131, 2999, 3000]) {
      expect(flowingPressure(undersaturated, inflowRate(undersaturated, pressure))).toBeCloseTo(pressure, 6);
    }
  });

  it('has one slope at the bubble point', () => {
    const slope = (from: number, to: number) => inflowRate(undersaturated, from) - inflowRate(undersaturated, to);
    expect(slope(2129.99, 2130) / slope(2130, 2130.01)).toBeCloseTo(1, 4);
  });

  it('takes a bubble point above the reservoir pressure as the reservoir pressure', () => {
    const above = { ...saturated, bubblePoint: 9000 };
    expect(inflowRate(above, 1000)).toBe(inflowRate(saturated, 1000));
  });

  it('gives nothing above the reservoir pressure, and has no pressure for more than it gives', () => {
    expect(inflowRate(saturated, 2600)).toBe(0);
    expect(flowingPressure(saturated, maxRate(saturated) * 1.0001)).toBeNaN();
    expect(flowingPressure(saturated, -1)).toBeNaN();
    expect(indexFromTest(100, 2500, 2500, 2000)).toBeNaN();
  });
});
