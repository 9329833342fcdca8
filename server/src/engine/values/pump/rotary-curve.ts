import { maximizer } from '../numeric/maximum.ts';
import { pchip } from '../numeric/pchip.ts';

/** One point of a stage's data sheet. */
export interface StagePoint {
  /** m3/s. */
  readonly rate: number;
  /** m of the pumped liquid. */
  readonly head: number;
  /** Shaft power, W; NaN where the sheet has none. */
  readonly power: number;
}

/**
 * One stage of a rotary pump at any shaft speed. `speedRatio` is the shaft speed over the curve's own (above 0);
 * rates m3/s, heads m, powers W, densities kg/m3. NaN outside the curve's points, or at a ratio not above 0.
 */
export interface StageCurve {
  readonly headAt: (rate: number, speedRatio: number) => number;
  readonly powerAt: (rate: number, speedRatio: number, density: number) => number;
  /** Head at zero rate; NaN if the curve does not begin there. */
  readonly shutOffHead: (speedRatio: number) => number;
  /** Rate at which rate x head / power is greatest along the interpolant. */
  readonly bestEfficiencyRate: (speedRatio: number) => number;
  /** Rate of the last point. */
  readonly maxRate: (speedRatio: number) => number;
}

/**
 * The curve through a data sheet's points, carried to other speeds by the affinity laws: rate as n, head as n2,
 * power as n3 and as density. Monotone cubic between points, never beyond them. Source: affinity laws, any text on
 * centrifugal pumps; they hold for like flow, so not for a changed viscosity.
 *
 * @param points in any order, no two at the same rate, at least two.
 * @param density at which the powers were taken, kg/m3.
 * @returns a curve that is NaN everywhere if the points are not as told.
 */
export function stageCurve(points: readonly StagePoint[], density: number): StageCurve {
  const sorted = [...points].sort((a, b) => a.rate - b.rate);
  const rates = sorted.map((point) => point.rate);
  const head = pchip(
    rates,
    sorted.map((point) => point.head),
  );
  const power = pchip(
    rates,
    sorted.map((point) => point.power),
  );
  const first = rates[0] ?? Number.NaN;
  const last = rates.at(-1) ?? Number.NaN;
  const headAt = (rate: number, ratio: number) => speed(ratio) ** 2 * head(rate / ratio);
  return {
    headAt,
    powerAt: (rate, ratio, pumped) => speed(ratio) ** 3 * (pumped / density) * power(rate / ratio),
    shutOffHead: (ratio) => headAt(0, ratio),
    bestEfficiencyRate: (ratio) => speed(ratio) * maximizer((rate) => (rate * head(rate)) / power(rate), first, last),
    maxRate: (ratio) => speed(ratio) * last,
  };
}

function speed(ratio: number): number {
  return ratio > 0 ? ratio : Number.NaN;
}
