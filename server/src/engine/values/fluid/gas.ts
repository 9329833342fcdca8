import { bracketedRoot } from '../numeric/roots.ts';
import { kelvin, PSI, STANDARD_PRESSURE, STANDARD_TEMPERATURE } from './field-units.ts';

/** Pseudo-critical point of a gas mixture: Pa absolute, K. */
export interface PseudoCritical {
  readonly pressure: number;
  readonly temperature: number;
}

/** Constants A1..A11 of Dranchuk and Abou-Kassem 1975, as two open implementations give them. */
const A = [0.3265, -1.07, -0.5339, 0.01569, -0.05165, 0.5475, -0.7361, 0.1844, 0.1056, 0.6134, 0.721] as const;
/** Compressibility factor at the critical point that the equation takes. */
const CRITICAL_Z = 0.27;
/** Reduced density that no gas within the range of the equation reaches. */
const DENSEST = 6;
/** A gas this thin is ideal to six digits, and a bracket that reaches liquid densities could not resolve it better. */
const IDEAL = 1e-6;

/**
 * Pseudo-critical pressure (Pa absolute) and temperature (K) of a sweet natural gas from its gravity (air = 1).
 * Ppc = 756.8 - 131.0 gg - 3.6 gg2 psia, Tpc = 169.2 + 349.5 gg - 74.0 gg2 degR.
 *
 * Source: Sutton, SPE 14265, 1985, as several open implementations give it (the paper was not opened). Fitted on
 * 0.57..1.68; taken from 0.55 (methane), NaN outside. No correction for CO2, H2S or N2.
 */
export function suttonPseudoCritical(gasGravity: number): PseudoCritical {
  if (!(gasGravity >= 0.55 && gasGravity <= 1.68)) return { pressure: Number.NaN, temperature: Number.NaN };
  return {
    pressure: (756.8 - 131.0 * gasGravity - 3.6 * gasGravity ** 2) * PSI,
    temperature: (169.2 + 349.5 * gasGravity - 74.0 * gasGravity ** 2) / 1.8,
  };
}

/**
 * Compressibility factor z from pseudo-reduced pressure and temperature.
 * Source: Dranchuk and Abou-Kassem, J. Can. Pet. Tech. 1975, fitted to the chart of Standing and Katz (the paper was
 * not opened). Good to about 1 % from reduced temperature 1.2; up to 13 % off the chart at 1.05 near the critical
 * pressure; below 1.05 the isotherm is steep there and at 1 it has a fold, of which one root is given.
 *
 * @returns NaN outside reduced pressure 0..30 and reduced temperature 1..3.
 */
export function reducedCompressibility(reducedPressure: number, reducedTemperature: number): number {
  const inRange = reducedPressure >= 0 && reducedPressure <= 30 && reducedTemperature >= 1 && reducedTemperature <= 3;
  if (!inRange) return Number.NaN;
  if (reducedPressure < IDEAL) return 1;
  const drive = (CRITICAL_Z * reducedPressure) / reducedTemperature;
  const factor = equationOfState(reducedTemperature);
  return drive / bracketedRoot((density) => density * factor(density) - drive, 0, DENSEST, 1e-12 * drive);
}

/**
 * Compressibility factor z of a sweet natural gas.
 *
 * @param pressurePa absolute.
 * @param gasGravity relative to air.
 * @returns NaN outside the ranges of {@link suttonPseudoCritical} and {@link reducedCompressibility}.
 */
export function compressibility(pressurePa: number, temperatureC: number, gasGravity: number): number {
  const critical = suttonPseudoCritical(gasGravity);
  return reducedCompressibility(pressurePa / critical.pressure, kelvin(temperatureC) / critical.temperature);
}

/**
 * Volume of gas at pressure and temperature over its volume at 14.696 psia and 60 degF: Bg = p_sc z T / (p T_sc).
 *
 * @param pressurePa absolute, above zero.
 * @returns NaN as {@link compressibility}, and at zero pressure.
 */
export function gasVolumeFactor(pressurePa: number, temperatureC: number, gasGravity: number): number {
  if (!(pressurePa > 0)) return Number.NaN;
  const z = compressibility(pressurePa, temperatureC, gasGravity);
  return (STANDARD_PRESSURE * z * kelvin(temperatureC)) / (pressurePa * STANDARD_TEMPERATURE);
}

/** z as a function of reduced density at one reduced temperature. */
function equationOfState(t: number): (density: number) => number {
  const linear = A[0] + A[1] / t + A[2] / t ** 3 + A[3] / t ** 4 + A[4] / t ** 5;
  const attraction = A[6] / t + A[7] / t ** 2;
  return (density) => {
    const square = density ** 2;
    const tail = A[9] * (1 + A[10] * square) * (square / t ** 3) * Math.exp(-A[10] * square);
    return 1 + linear * density + (A[5] + attraction) * square - A[8] * attraction * density ** 5 + tail;
  };
}
