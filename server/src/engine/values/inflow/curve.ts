/** What a reservoir gives against flowing pressure. Pressures absolute, so that none is at 0 rather than -1 atm. */
export interface InflowCurve {
  /** Static pressure at the perforations, Pa absolute. */
  readonly reservoirPressure: number;
  /** Pa absolute; one above the reservoir pressure counts as the reservoir pressure. */
  readonly bubblePoint: number;
  /** Productivity index above the bubble point, m3/s per Pa. */
  readonly index: number;
}

/** q_max beyond the straight part is J p_b over this: the slope of Vogel's curve at the bubble point is J only so. */
const VOGEL_JOIN = 1.8;

/**
 * Rate at a flowing pressure, m3/s at the surface: a straight line above the bubble point, Vogel's below.
 * Source: Vogel, J. Pet. Tech. January 1968, joined after Standing (Ahmed, Reservoir Engineering Handbook ch. 7;
 * formula read in a public copy).
 *
 * @param flowingPressure at the perforations, Pa absolute; above the reservoir pressure the rate is 0.
 * @returns NaN for a negative pressure, or a curve whose numbers are not positive.
 */
export function inflowRate(curve: InflowCurve, flowingPressure: number): number {
  if (!isCurve(curve) || !(flowingPressure >= 0)) return Number.NaN;
  return flowingPressure >= curve.reservoirPressure ? 0 : curve.index * drawdown(curve, flowingPressure);
}

/**
 * Flowing pressure, Pa absolute, at which the reservoir gives a rate (m3/s): the closed inverse of {@link inflowRate}.
 *
 * @returns NaN for a rate below 0 or above {@link maxRate}.
 */
export function flowingPressure(curve: InflowCurve, rate: number): number {
  if (!isCurve(curve) || !(rate >= 0 && rate <= maxRate(curve))) return Number.NaN;
  const bubblePoint = saturation(curve);
  const beyond = rate / curve.index - (curve.reservoirPressure - bubblePoint);
  if (beyond <= 0) return curve.reservoirPressure - rate / curve.index;
  const left = Math.max(0, 1 - (VOGEL_JOIN * beyond) / bubblePoint);
  return (bubblePoint * (Math.sqrt(0.04 + 3.2 * left) - 0.2)) / 1.6;
}

/** Rate at zero absolute flowing pressure, m3/s: q_b + J p_b/1.8. NaN as {@link inflowRate}. */
export function maxRate(curve: InflowCurve): number {
  return inflowRate(curve, 0);
}

/**
 * Productivity index, m3/s per Pa, from one test above or below the bubble point. Pressures Pa absolute, rate m3/s.
 *
 * @returns NaN unless the rate is above 0 and the flowing pressure below the reservoir pressure.
 */
export function indexFromTest(
  rate: number,
  flowingPressure: number,
  reservoirPressure: number,
  bubblePoint: number,
): number {
  const unit = { reservoirPressure, bubblePoint, index: 1 };
  if (!isCurve(unit) || !(rate > 0 && flowingPressure >= 0 && flowingPressure < reservoirPressure)) return Number.NaN;
  return rate / drawdown(unit, flowingPressure);
}

/** The drawdown that would give the same rate on the straight line alone, Pa. */
function drawdown(curve: InflowCurve, flowingPressure: number): number {
  const bubblePoint = saturation(curve);
  if (flowingPressure >= bubblePoint) return curve.reservoirPressure - flowingPressure;
  const x = flowingPressure / bubblePoint;
  return curve.reservoirPressure - bubblePoint + (bubblePoint / VOGEL_JOIN) * (1 - 0.2 * x - 0.8 * x ** 2);
}

function saturation(curve: InflowCurve): number {
  return Math.min(curve.bubblePoint, curve.reservoirPressure);
}

function isCurve({ reservoirPressure, bubblePoint, index }: InflowCurve): boolean {
  return reservoirPressure > 0 && bubblePoint >= 0 && index > 0 && Number.isFinite(reservoirPressure * index);
}
