import { describe, expect, it } from 'vitest';
import { stageCurve } from '../../server/src/engine/values/pump/rotary-curve.ts';
import { agree } from './row.ts';

// An invented stage: head 10 - q2, power 50 + 30 q (q in 1e-3 m3/s, W).
const points = [0, 0.5, 1, 1.5, 2, 2.5, 3].map((q) => ({ rate: q * 1e-3, head: 10 - q * q, power: 50 + 30 * q }));
const stage = stageCurve(points, 1000);
const affinity = 'CV-5.1: affinity laws (rate and head read in the EPANET help), R/D';

const scaled = (hertz: number, rate: number, head: number, power: number) => {
  const ratio = hertz / 60;
  return [
    {
      what: `rate, 60 to ${hertz} Hz`,
      actual: () => stage.maxRate(ratio) / stage.maxRate(1),
      expected: rate,
      tolerance: 1e-4,
      source: affinity,
    },
    {
      what: `head, 60 to ${hertz} Hz`,
      actual: () => stage.headAt(0.001 * ratio, ratio) / stage.headAt(0.001, 1),
      expected: head,
      tolerance: 1e-4,
      source: affinity,
    },
    {
      what: `power, 60 to ${hertz} Hz`,
      actual: () => stage.powerAt(0.001 * ratio, ratio, 1000) / stage.powerAt(0.001, 1, 1000),
      expected: power,
      tolerance: 1e-4,
      source: affinity,
    },
  ];
};

describe('rotary stage', () => {
  agree([
    ...scaled(50, 0.8333, 0.6944, 0.5787),
    ...scaled(55, 0.9167, 0.8403, 0.7703),
    ...scaled(65, 1.0833, 1.1736, 1.2714),
    {
      what: 'no-flow frequency of 1900 m at 50 Hz against 1200 m',
      actual: () => 50 * Math.sqrt(1200 / ((1900 / 10) * stage.shutOffHead(1))),
      expected: 39.7,
      source: 'CV-5.8: D',
    },
    {
      what: 'power in a liquid of 850 kg/m3',
      actual: () => stage.powerAt(0.001, 1, 850),
      expected: 68,
      tolerance: 1e-12,
      source: 'in proportion to density, D',
    },
    {
      what: 'best-efficiency rate',
      actual: () => stage.bestEfficiencyRate(1),
      // Greatest q (10 - q2)/(50 + 30 q): root of 500 - 150 q2 - 60 q3.
      expected: 1.4544e-3,
      tolerance: 5e-3,
      source: 'calculus on the curve behind the points, D; the interpolant is not that curve',
    },
    {
      what: 'head at a point of the sheet',
      actual: () => stage.headAt(0.0015, 1),
      expected: 7.75,
      tolerance: 1e-12,
      source: 'the sheet itself',
    },
  ]);

  it('has its best efficiency where no neighbour is better', () => {
    const efficiency = (rate: number) => (rate * stage.headAt(rate, 1)) / stage.powerAt(rate, 1, 1000);
    const best = stage.bestEfficiencyRate(1);
    for (const step of [1e-7, 1e-5, 1e-4]) {
      expect(efficiency(best)).toBeGreaterThanOrEqual(efficiency(best + step));
      expect(efficiency(best)).toBeGreaterThanOrEqual(efficiency(best - step));
    }
  });

  it('does not care about the order of the points', () => {
    expect(stageCurve([...points].reverse(), 1000).headAt(0.0012, 0.9)).toBe(stage.headAt(0.0012, 0.9));
  });

  it('still gives heads where the sheet has no powers', () => {
    const bare = stageCurve(
      points.map((point) => ({ ...point, power: Number.NaN })),
      1000,
    );
    expect(bare.headAt(0.0012, 1)).toBe(stage.headAt(0.0012, 1));
    expect(bare.bestEfficiencyRate(1)).toBeNaN();
  });

  it('is NaN beyond its points, at rest, and for two points at one rate', () => {
    expect(stage.headAt(0.00301, 1)).toBeNaN();
    expect(stage.headAt(0, 0)).toBeNaN();
    expect(stage.headAt(-1e-4, 1)).toBeNaN();
    expect(stageCurve(points.slice(2), 1000).shutOffHead(1)).toBeNaN();
    expect(stageCurve([...points, points[0]!], 1000).headAt(0.001, 1)).toBeNaN();
    expect(stageCurve([], 1000).maxRate(1)).toBeNaN();
  });
});
