/**
 * Insulation resistance brought to 40 degC, in the unit of the reading: it halves with every 10 K,
 * R40 = R 0.5^((40 - T)/10).
 *
 * Source: IEEE 43-2013 6.3, thermoplastic insulation (from memory). Written for machine windings; to cable and to
 * linear motors it is carried by analogy, and beyond about 20 K of correction it is a guide only.
 *
 * @param resistance as read, above 0.
 * @param temperatureC of the insulation when read.
 * @returns NaN for a resistance not above 0.
 */
export function insulationAt40(resistance: number, temperatureC: number): number {
  return resistance > 0 ? resistance * 0.5 ** ((40 - temperatureC) / 10) : Number.NaN;
}
