/** One pound-force per square inch, Pa (NIST SP 811 App. B.8; from 0.45359237 kg, 9.80665 m/s2 and 0.0254 m). */
export const PSI = 6894.757293168361;

/** One scf/stb as m3/m3 at the same standard conditions (0.3048^3 / 0.158987294928). */
export const SCF_PER_STB = 0.1781076;

/** Standard pressure of the field correlations, 14.696 psia, in Pa. */
export const STANDARD_PRESSURE = 14.696 * PSI;

/** Standard temperature of the field correlations, 60 degF, in K. */
export const STANDARD_TEMPERATURE = (60 + 459.67) / 1.8;

/** degC to degF. */
export function fahrenheit(celsius: number): number {
  return 1.8 * celsius + 32;
}

/** degC to K. */
export function kelvin(celsius: number): number {
  return celsius + 273.15;
}
