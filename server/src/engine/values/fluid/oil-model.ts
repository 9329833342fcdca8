import { WATER_DENSITY_60F } from '../../quantity/unit-table.ts';
import { entry, entryOr, optionalEntry, optionalValue, value } from '../declare.ts';
import { apiOf, oilVolumeFactor, solutionGas } from './black-oil.ts';

/** What the correlations need of an oil; pressures Pa absolute, temperature degC, gas-oil ratio m3/m3. */
export interface Oil {
  readonly oilDensity: number;
  readonly gasOilRatio: number;
  readonly gasGravity: number;
  readonly temperature: number;
  readonly statedBubblePoint: number | undefined;
  readonly reservoirPressure: number | undefined;
}

/** Inputs of an `Oil` at the intake. */
export const OIL_AT_INTAKE = {
  oilDensity: value('fluid.oil_density'),
  gasOilRatio: entry('fluid.gas_oil_ratio'),
  gasGravity: entry('fluid.gas_gravity'),
  temperature: value('intake.temperature'),
  statedBubblePoint: optionalEntry('reservoir.bubble_point'),
  reservoirPressure: optionalEntry('reservoir.pressure'),
};

/** The same where the oil may be unknown: then the liquid counts as free of gas. */
export const OIL_IF_KNOWN = {
  oilDensity: optionalValue('fluid.oil_density'),
  gasOilRatio: optionalEntry('fluid.gas_oil_ratio'),
  gasGravity: optionalEntry('fluid.gas_gravity'),
  temperature: optionalValue('intake.temperature'),
  statedBubblePoint: optionalEntry('reservoir.bubble_point'),
  reservoirPressure: optionalEntry('reservoir.pressure'),
};

const UNSEPARATED = 'no separation is taken where none is entered: the most gas';

/** Shares of the free gas that do not enter the pump: by nature, and by what is fitted. */
export const SEPARATIONS = {
  naturalSeparation: entryOr('operation.gas_separation', 0, UNSEPARATED),
  fittedSeparation: entryOr('equipment.pump.gas_separation', 0, UNSEPARATED),
};

type OilIfKnown = { readonly [K in keyof Oil]: Oil[K] | undefined };

/**
 * Gas dissolved in the oil, m3/m3, never more than there is. With a bubble point entered, Standing's curve is scaled to
 * pass through it.
 * @param pressure Pa absolute
 */
export function dissolvedGas(oil: Oil, pressure: number): number {
  const standing = standingAt(oil, pressure);
  if (oil.statedBubblePoint === undefined) return Math.min(oil.gasOilRatio, standing);
  const bubblePoint = Math.min(oil.statedBubblePoint, oil.reservoirPressure ?? Number.POSITIVE_INFINITY);
  if (pressure >= bubblePoint) return oil.gasOilRatio;
  return Math.min(oil.gasOilRatio, (standing * oil.gasOilRatio) / standingAt(oil, bubblePoint));
}

/** Volume of the oil at pressure over its volume at standard conditions. */
export function oilVolume(oil: Oil, pressure: number): number {
  const gravity = oil.oilDensity / WATER_DENSITY_60F;
  return oilVolumeFactor(dissolvedGas(oil, pressure), oil.temperature, gravity, oil.gasGravity);
}

/**
 * Volume of the liquid at pressure over its volume at the surface, water counted as incompressible; 1 where the oil is
 * not known.
 */
export function liquidVolume(oil: OilIfKnown, waterCut: number, pressure: number): number {
  return isKnown(oil) ? (1 - waterCut) * oilVolume(oil, pressure) + waterCut : 1;
}

function isKnown(oil: OilIfKnown): oil is Oil {
  const { oilDensity, gasOilRatio, gasGravity, temperature } = oil;
  return [oilDensity, gasOilRatio, gasGravity, temperature].every((each) => each !== undefined);
}

function standingAt(oil: Oil, pressure: number): number {
  return solutionGas(pressure, oil.temperature, apiOf(oil.oilDensity), oil.gasGravity);
}
