/** ASTM B258 lists the sizes from 4/0, which is -3, to 56. */
export const THICKEST_GAUGE = -3;
export const THINNEST_GAUGE = 56;

/** Diameter of AWG 36, m, and the 39 equal steps from it to 4/0, which is 92 times as thick (ASTM B258). */
const AWG_36_DIAMETER = 0.127e-3;
const AWG_RATIO = 92;
const AWG_STEPS = 39;

/**
 * Cross-section of an AWG size in m2, as of one solid wire: d = 0.127 mm x 92^((36 - n)/39).
 * Source: ASTM B258 (from memory; the diameters agree with an open textbook's table).
 *
 * @param gauge the number; 0, -1, -2, -3 for 1/0, 2/0, 3/0, 4/0.
 */
export function awgArea(gauge: number): number {
  const diameter = AWG_36_DIAMETER * AWG_RATIO ** ((36 - gauge) / AWG_STEPS);
  return (Math.PI / 4) * diameter ** 2;
}

/** The size, whole or between two, whose cross-section (m2) this is. */
export function gaugeOfArea(area: number): number {
  const diameter = Math.sqrt((4 / Math.PI) * area);
  return 36 - (AWG_STEPS * Math.log(diameter / AWG_36_DIAMETER)) / Math.log(AWG_RATIO);
}
