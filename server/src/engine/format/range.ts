import { toAbsolute } from '../quantity/convert.ts';
import { kindNamed } from '../quantity/kinds.ts';
import { parseQuantity } from '../quantity/parse.ts';
import type { Quantity } from '../quantity/types.ts';

/** Pa absolute. */
export const ATMOSPHERE = 101_325;

/** Ranges of pressures are compared above vacuum, with a bare unit read as gauge: they are far wider than an atmosphere. */
export function aboveVacuum(quantity: Quantity, value: number): number {
  return quantity.kind.point === 'pressure' ? toAbsolute({ ...quantity, value }, 'gauge', ATMOSPHERE) : value;
}

/**
 * The ends of a range that a schema gives as texts, in the kind's internal unit, pressures above vacuum; undefined
 * where one of them is no quantity of that kind. The generator asks: reading the texts of all keys at each start would
 * take longer than the check of a file.
 */
export function rangeOf(kindName: string, plausible: readonly string[]): readonly number[] | undefined {
  const kind = kindNamed(kindName);
  const ends = kind === undefined ? [] : plausible.map((text) => parseQuantity(text, kind).quantity);
  const numbers = ends.flatMap((end) => (end === undefined ? [] : [aboveVacuum(end, end.value)]));
  return numbers.length === 2 ? numbers : undefined;
}
