/** Standard atmosphere at sea level, Pa (ISO 2533). */
export const STANDARD_ATMOSPHERE = 101_325;

/**
 * Air pressure at an elevation above sea level.
 * @param elevation m, of the troposphere (up to 11 km)
 * @returns Pa absolute; at sea level where the elevation is beyond the formula
 * Source: ISO 2533 standard atmosphere, 101325·(1 − 2.25577e-5·h)^5.25588 (from memory).
 */
export function atmosphereAt(elevation: number): number {
  const ratio = 1 - 2.25577e-5 * elevation;
  return ratio > 0 && Number.isFinite(ratio) ? STANDARD_ATMOSPHERE * ratio ** 5.25588 : STANDARD_ATMOSPHERE;
}
