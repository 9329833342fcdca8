import { describe, expect, it } from 'vitest';
import { frictionDrop, frictionFactor } from '../../server/src/engine/values/lift/friction.ts';
import { agree } from './row.ts';

const DAY = 86400;
/** Colebrook's equation, solved here by repeated substitution. */
function colebrook(reynolds: number, roughness: number): number {
  let root = 7;
  for (let step = 0; step < 100; step += 1) root = -2 * Math.log10(roughness / 3.7 + (2.51 * root) / reynolds);
  return root ** -2;
}
// Points of the Moody chart, Re from 10 000 and e/D up to 0.03.
const chart = [1e4, 3e4, 1e5, 1e6, 1e7].flatMap((reynolds) =>
  [0, 1e-5, 1e-4, 1e-3, 1e-2, 0.03].map((rough) => [reynolds, rough]),
);

describe('friction', () => {
  const library = 'open library fluids, its test of Churchill 1977, R';
  agree([
    {
      what: 'creeping, Re 0.5',
      actual: () => frictionFactor(0.5, 1e-4),
      expected: 128,
      source: 'Hagen-Poiseuille, 64/Re: D',
    },
    {
      what: 'Churchill, Re 1e5, e/D 1e-4',
      actual: () => frictionFactor(1e5, 1e-4),
      expected: 0.018462624566280075,
      tolerance: 1e-12,
      source: library,
    },
    {
      what: 'Colebrook, Re 1e5, e/D 1e-4',
      actual: () => frictionFactor(1e5, 1e-4),
      expected: 0.0185138661,
      tolerance: 0.01,
      source: 'CV-4.24: R; Churchill is within 1 % of it',
    },
    {
      what: 'Colebrook, Re 1e5, smooth',
      actual: () => frictionFactor(1e5, 0),
      expected: 0.0179897731,
      tolerance: 0.01,
      source: 'CV-4.24: R',
    },
    {
      what: 'laminar, Re 128',
      actual: () => frictionFactor(128, 0),
      expected: 0.5,
      tolerance: 1e-6,
      source: 'CV-4.24: R (64/Re)',
    },
    {
      what: 'Blasius, Re 1e4',
      actual: () => frictionFactor(1e4, 0),
      expected: 0.03164,
      tolerance: 0.025,
      source: 'CV-4.24: R; Blasius is 2.4 % above Colebrook there',
    },
    {
      what: 'drop of 10 kg/s in 0.1 m, Pa',
      actual: () => frictionDrop(0.01, 1, 0.1, 0, 1000, 1e-5),
      expected: 63.434473,
      tolerance: 0.01,
      source: 'CV-4.25: R (by Colebrook)',
    },
    {
      what: 'f of 200 m3/d in 62 mm',
      actual: () => frictionFactor(47540, 0.046 / 62),
      expected: 0.02347,
      tolerance: 0.01,
      source: 'CV-4.26: D by Colebrook',
    },
    {
      what: 'head lost by 200 m3/d in 62 mm, m/km',
      actual: () => frictionDrop(200 / DAY, 1000, 0.062, 0.046e-3, 1000, 1e-3) / 9806.65,
      expected: 11.35,
      tolerance: 0.01,
      source: 'CV-4.26: D by Colebrook',
    },
    ...chart.map(([reynolds, rough]) => ({
      what: `Moody chart, Re ${reynolds}, e/D ${rough}`,
      actual: () => frictionFactor(reynolds!, rough!),
      expected: colebrook(reynolds!, rough!),
      tolerance: 0.022,
      source: 'Colebrook (R) solved here, D; Churchill is a fit of it',
    })),
  ]);

  it('joins the creeping flow to the general formula', () => {
    expect(frictionFactor(0.999999, 0.01) / frictionFactor(1.000001, 0.01)).toBeCloseTo(1, 5);
  });

  it('follows the sign of the rate and rests at zero', () => {
    const drop = (rate: number) => frictionDrop(rate, 1000, 0.062, 0, 900, 0.01);
    expect(drop(-0.001)).toBe(-drop(0.001));
    expect(drop(0)).toBe(0);
  });

  it('is NaN without a bore, and for a negative roughness', () => {
    expect(frictionDrop(0.001, 1000, 0, 0, 900, 0.01)).toBeNaN();
    expect(frictionFactor(1e5, -1)).toBeNaN();
    expect(frictionFactor(0, 0)).toBeNaN();
  });
});
