import { WATER_DENSITY_60F } from '../../quantity/unit-table.ts';
import { fahrenheit, PSI, SCF_PER_STB } from './field-units.ts';

/** Exponent of Standing's Rs. His bubble point has its reciprocal, which is printed rounded as 0.83. */
const STANDING_EXPONENT = 1.2048;

/**
 * API gravity of an oil from its density at 60 degF in kg/m3: API = 141.5/SG - 131.5.
 * Source: API / ASTM D1250 (from memory). NaN when the density is not above zero.
 */
export function apiOf(density: number): number {
  return density > 0 ? (141.5 * WATER_DENSITY_60F) / density - 131.5 : Number.NaN;
}

/**
 * Gas in solution in saturated oil, m3/m3 at standard conditions; the caller caps it at the gas-oil ratio.
 * Rs = gg [(p/18.2 + 1.4) 10^(0.0125 API - 0.00091 T)]^1.2048, psia, degF, scf/stb.
 *
 * Source: Standing 1947, as given in open code after Ahmed, Reservoir Engineering Handbook (the book was not opened).
 * Fitted on 16.5..63.8 API, 38..126 degC, 0.9..48 MPa, gas gravity 0.59..0.95 (from memory).
 *
 * @param pressurePa absolute.
 * @param gasGravity relative to air.
 * @returns NaN for a negative pressure or a gas gravity not above zero.
 */
export function solutionGas(pressurePa: number, temperatureC: number, apiGravity: number, gasGravity: number): number {
  if (!(pressurePa >= 0 && gasGravity > 0)) return Number.NaN;
  const bracket = (pressurePa / PSI / 18.2 + 1.4) / standingHeat(temperatureC, apiGravity);
  return gasGravity * bracket ** STANDING_EXPONENT * SCF_PER_STB;
}

/**
 * Bubble point, Pa absolute, of an oil that holds `gor` (m3/m3 at standard conditions): the exact inverse of
 * {@link solutionGas}, so that free gas begins where the bubble point is. The printed exponent 0.83 differs from the
 * reciprocal by 0.01 % of the pressure. 0 where Standing's line ends below zero pressure.
 *
 * Source and range: as {@link solutionGas}.
 *
 * @returns NaN for a negative ratio or a gas gravity not above zero.
 */
export function standingBubblePoint(gor: number, temperatureC: number, apiGravity: number, gasGravity: number): number {
  if (!(gor >= 0 && gasGravity > 0)) return Number.NaN;
  const bracket = (gor / SCF_PER_STB / gasGravity) ** (1 / STANDING_EXPONENT) * standingHeat(temperatureC, apiGravity);
  return Math.max(0, 18.2 * (bracket - 1.4)) * PSI;
}

/**
 * Volume of saturated oil at pressure and temperature over its volume at standard conditions, m3/m3.
 * Bo = 0.9759 + 0.00012 [Rs (gg/go)^0.5 + 1.25 T]^1.2, scf/stb, degF.
 *
 * Source: Standing 1947 (from memory; the square root is over the gravities alone). Range as {@link solutionGas}.
 *
 * @param solutionRatio gas in solution, m3/m3.
 * @param oilGravity relative to water.
 * @returns NaN where the bracket is negative (below about -18 degC without gas), or a gravity is not above zero.
 */
export function oilVolumeFactor(
  solutionRatio: number,
  temperatureC: number,
  oilGravity: number,
  gasGravity: number,
): number {
  if (!(solutionRatio >= 0 && oilGravity > 0 && gasGravity > 0)) return Number.NaN;
  const dissolved = (solutionRatio / SCF_PER_STB) * Math.sqrt(gasGravity / oilGravity);
  return 0.9759 + 0.00012 * (dissolved + 1.25 * fahrenheit(temperatureC)) ** 1.2;
}

function standingHeat(temperatureC: number, apiGravity: number): number {
  return 10 ** (0.00091 * fahrenheit(temperatureC) - 0.0125 * apiGravity);
}
