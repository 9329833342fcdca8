import type { Kind, Unit } from './types.ts';
import { WATER_DENSITY_60F } from './unit-table.ts';
import { awgArea, gaugeOfArea } from './wire-gauge.ts';

/**
 * A number in a unit as a value in the kind's internal unit. An `AWG` size of `2/0` is the number -1. NaN outside the
 * range of a formula.
 */
export function toInternal(unit: Unit, number: number, kind: Kind): number {
  switch (unit.scale) {
    case 'api':
      return gravityOfDegrees(number);
    case 'awg':
      return awgArea(number);
    default:
      return (number * unit.numerator + originOf(unit, kind) * unit.denominator) / unit.denominator;
  }
}

/** A value in the kind's internal unit as a number in a unit; the inverse of `toInternal`. */
export function fromInternal(unit: Unit, value: number, kind: Kind): number {
  switch (unit.scale) {
    case 'api':
      return degreesOfGravity(value);
    case 'awg':
      return gaugeOfArea(value);
    default:
      return ((value - originOf(unit, kind)) * unit.denominator) / unit.numerator;
  }
}

/** The half-width, in the internal unit, of an interval `number` plus or minus `half`, both in the unit. */
export function spread(unit: Unit, number: number, half: number, kind: Kind): number {
  if (unit.scale !== 'api' && unit.scale !== 'awg') return (half * unit.numerator) / unit.denominator;
  return Math.abs(toInternal(unit, number + half, kind) - toInternal(unit, number - half, kind)) / 2;
}

/** The offset of a unit on a scale. `K` has one only where a temperature is due: elsewhere it counts a difference. */
function originOf(unit: Unit, kind: Kind): number {
  return unit.scale === 'point' || kind.point === 'temperature' ? unit.offset : 0;
}

/** Density in kg/m3 from degAPI. Source: API MPMS ch. 11, from memory. */
function gravityOfDegrees(degrees: number): number {
  return degrees > -131.5 ? (141.5 / (131.5 + degrees)) * WATER_DENSITY_60F : Number.NaN;
}

function degreesOfGravity(density: number): number {
  return density > 0 ? 141.5 / (density / WATER_DENSITY_60F) - 131.5 : Number.NaN;
}
