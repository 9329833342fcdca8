import { formatMeasure } from './format.ts';
import { misfit } from './kinds.ts';
import { fromInternal, toInternal } from './scale.ts';
import type { Kind, Quantity, Reference, Unit } from './types.ts';
import { findUnit } from './units.ts';

/** A value in the kind's internal unit as a number in the unit that the text spells; undefined if it does not fit. */
export function toUnit(value: number, kind: Kind, unitText: string): number | undefined {
  const unit = findUnit(unitText)?.unit;
  return unit === undefined || misfit(kind, unit) !== undefined ? undefined : fromInternal(unit, value, kind);
}

/** A number in the unit that the text spells as a value in the kind's internal unit; undefined if it does not fit. */
export function fromUnit(number: number, kind: Kind, unitText: string): number | undefined {
  const unit = findUnit(unitText)?.unit;
  return unit === undefined || misfit(kind, unit) !== undefined ? undefined : toInternal(unit, number, kind);
}

/** What one number means in each usual unit of a kind, in internal units: for "meant psi?". */
export function sameNumberInOtherUnits(number: number, kind: Kind): readonly { unit: string; value: number }[] {
  return kind.usual.flatMap((unit) => {
    const value = fromUnit(number, kind, unit);
    return value === undefined || !Number.isFinite(value) ? [] : [{ unit, value }];
  });
}

// Readings beyond these say nothing to a reader: nobody wants an insulation resistance in ohm.
const SMALLEST_READING = 1e-3;
const LARGEST_READING = 1e6;

/** The same reading in the other usual units of its kind, as text for a hover: `899.2 psi(g)`, `6200 kPa(g)`. */
export function convertText(quantity: Quantity): readonly string[] {
  const { kind, value, reference } = quantity;
  const others = kind.usual.filter((usual) => isOtherUnit(usual, quantity));
  return [...new Set(others.map((unit) => formatMeasure(value, kind, unit, reference)))];
}

function isOtherUnit(usual: string, quantity: Quantity): boolean {
  const unit = findUnit(usual)?.unit;
  if (unit === undefined || unit.symbol === quantity.unit || !isOfQuantity(unit, quantity)) return false;
  const size = Math.abs(fromInternal(unit, quantity.value, quantity.kind));
  return size === 0 || unit.scale === 'awg' || (size >= SMALLEST_READING && size < LARGEST_READING);
}

/** A kinematic viscosity converts to kinematic units only: the dynamic ones need the density. */
function isOfQuantity(unit: Unit, quantity: Quantity): boolean {
  const written = findUnit(quantity.unit)?.unit;
  return written !== undefined && written.dimension.mass === unit.dimension.mass;
}

/** A pressure in Pa absolute. `bareMeans` is what a unit without a reference stands for; `atmosphere` in Pa absolute. */
export function toAbsolute(quantity: Quantity, bareMeans: Reference, atmosphere: number): number {
  const reference = quantity.reference ?? bareMeans;
  return reference === 'gauge' ? quantity.value + atmosphere : quantity.value;
}

/** A pressure in Pa on the scale asked for, from Pa absolute. */
export function fromAbsolute(absolute: number, reference: Reference, atmosphere: number): number {
  return reference === 'gauge' ? absolute - atmosphere : absolute;
}
