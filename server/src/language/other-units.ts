import { findUnit, formatMeasure, type Quantity, type Shape, toUnit } from '../engine/index.ts';

/** The same reading in the first unit of the other system that is usual at this key; undefined where there is none. */
export function inOtherSystem(quantity: Quantity, shape: Shape | undefined): string | undefined {
  const own = systemOf(quantity.unit);
  if (own === 'both' || !isConvertible(quantity) || isNothing(quantity)) return undefined;
  const other = shape?.quantity?.usual.find((unit) => systemOf(unit) !== own && systemOf(unit) !== 'both');
  return other === undefined ? undefined : formatMeasure(quantity.value, quantity.kind, other, quantity.reference);
}

/**
 * The quantity written in the other units that are usual at this key, with as many digits as keep what its author wrote:
 * `1420 m` is `4658.8 ft`, not `4659 ft`.
 */
export function rewritten(quantity: Quantity, shape: Shape | undefined): readonly string[] {
  if (!isConvertible(quantity) || quantity.tolerance > 0) return [];
  const others = (shape?.quantity?.usual ?? []).filter((unit) => unit !== '' && unit !== quantity.unit);
  return others.flatMap((unit) => writtenIn(quantity, unit) ?? []);
}

/** A viscosity that was written as a kinematic one needs the density; what takes any unit has no usual one. */
function isConvertible({ kind, alternate }: Quantity): boolean {
  return kind.name !== 'any' && alternate === undefined;
}

/** Nothing is nothing in every unit, but for degrees. */
function isNothing({ number, kind }: Quantity): boolean {
  return number === 0 && kind.point !== 'temperature';
}

function systemOf(unitText: string): string {
  return findUnit(unitText)?.unit.system ?? 'both';
}

const [FEWEST_DIGITS, MOST_DIGITS] = [4, 10];
/** Of the last digit that the author wrote, what may be lost. */
const LOSS = 0.05;

function writtenIn({ value, kind, resolution, reference }: Quantity, unit: string): string | undefined {
  // Wire gauges are names, not numbers.
  if (findUnit(unit)?.unit.scale === 'awg') return gaugeText(value, kind, unit);
  const number = toUnit(value, kind, unit);
  const beside = toUnit(value + resolution, kind, unit);
  if (number === undefined || beside === undefined) return undefined;
  const mayLose = LOSS * Math.abs(beside - number);
  let digits = FEWEST_DIGITS;
  while (digits < MOST_DIGITS && Math.abs(Number(number.toPrecision(digits)) - number) > mayLose) digits++;
  const mark = reference === undefined ? '' : reference === 'gauge' ? '(g)' : '(a)';
  return `${Number(number.toPrecision(digits))} ${unit}${mark}`;
}

/** A size between two gauges has none. */
function gaugeText(value: number, kind: Quantity['kind'], unit: string): string | undefined {
  const text = formatMeasure(value, kind, unit);
  return text.endsWith(unit) ? text : undefined;
}
