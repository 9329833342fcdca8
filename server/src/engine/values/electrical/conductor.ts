import { awgArea, gaugeOfArea, THICKEST_GAUGE, THINNEST_GAUGE } from '../../quantity/wire-gauge.ts';

/**
 * IEC 60228:2004 table 2, class 2, plain copper: nominal area in mm2 and the greatest resistance at 20 degC in ohm/km.
 * 0.5..630 mm2 as three public reproductions of the table give them; 800 and 1000 mm2 from memory.
 * The standard fixes the resistance, not the area: 50 mm2 is about 44.6 mm2 of copper.
 */
const CLASS_2_PLAIN_COPPER: readonly (readonly [area: number, resistance: number])[] = [
  [0.5, 36.0],
  [0.75, 24.5],
  [1, 18.1],
  [1.5, 12.1],
  [2.5, 7.41],
  [4, 4.61],
  [6, 3.08],
  [10, 1.83],
  [16, 1.15],
  [25, 0.727],
  [35, 0.524],
  [50, 0.387],
  [70, 0.268],
  [95, 0.193],
  [120, 0.153],
  [150, 0.124],
  [185, 0.0991],
  [240, 0.0754],
  [300, 0.0601],
  [400, 0.047],
  [500, 0.0366],
  [630, 0.0283],
  [800, 0.0221],
  [1000, 0.0176],
];

const MM2 = 1e-6;
const PER_KM = 1e-3;
/** Slack for an area that has been through a conversion of units. */
const SAME_AREA = 1e-6;
/** Annealed copper at 20 degC, 100 % IACS, ohm.m (IEC 60028: 1/58 ohm.mm2/m). */
const COPPER_RESISTIVITY = 0.017241e-6;
/** A strand is longer than the conductor by its lay (common practice, no source). */
const STRANDING_LAY = 1.02;
/** Copper at 20 degC, 1/K (IEC 60028). */
const COPPER_COEFFICIENT = 0.00393;

/**
 * Whether an area (m2) is that of a whole AWG size from 4/0 to 56, and so was written as one: the nominal metric
 * sizes all lie 3 % or more away from any.
 */
export function isAwgArea(area: number): boolean {
  const gauge = Math.round(gaugeOfArea(area));
  return gauge >= THICKEST_GAUGE && gauge <= THINNEST_GAUGE && Math.abs(area / awgArea(gauge) - 1) < SAME_AREA;
}

/**
 * Resistance of a stranded copper conductor at 20 degC, ohm/m.
 * Metric sizes: the greatest that IEC 60228 allows (class 2, plain). AWG: area, resistivity and 2 % for the lay.
 *
 * @param area nominal, m2.
 * @param isAwg whether the size was written as AWG.
 * @returns NaN for a metric size that is not in the standard, or an area not above 0.
 */
export function standardResistance(area: number, isAwg: boolean): number {
  if (!(area > 0)) return Number.NaN;
  if (isAwg) return (COPPER_RESISTIVITY / area) * STRANDING_LAY;
  const row = CLASS_2_PLAIN_COPPER.find(([nominal]) => Math.abs(area / (nominal * MM2) - 1) < SAME_AREA);
  return row ? row[1] * PER_KM : Number.NaN;
}

/**
 * Resistance of copper at a temperature (degC) over that at 20 degC: 1 + 0.00393 (T - 20).
 * Source: IEC 60028. Linear, good from -50 to 200 degC.
 */
export function temperatureFactor(temperatureC: number): number {
  return 1 + COPPER_COEFFICIENT * (temperatureC - 20);
}
