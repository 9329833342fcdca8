import { toUnit } from '../quantity/convert.ts';
import { KINDS, misfit } from '../quantity/kinds.ts';
import { scanNumber } from '../quantity/number.ts';
import { parseQuantity } from '../quantity/parse.ts';
import type { Kind, Quantity } from '../quantity/types.ts';
import { findUnit } from '../quantity/units.ts';

/** What a crew wrote at a step with a unit: a number in the step's unit, or why it is none, in a sentence. */
export type ReadNumber =
  | { readonly number: number; readonly beyond: 'above' | 'below' | undefined; readonly fault?: undefined }
  | { readonly number?: undefined; readonly fault: string };

/** The kind of quantity that is read in a unit, the one to which it is usual first; undefined for a word of no unit. */
export function kindOfUnit(unitText: string): Kind | undefined {
  const found = findUnit(unitText);
  if (found === undefined) return undefined;
  const { unit, reference } = found;
  const fitting = Object.values(KINDS).filter((kind) => kind !== KINDS.any && misfit(kind, unit) === undefined);
  // A pressure whose zero is not stated is a difference on a checklist.
  const fair = fitting.filter(({ point }) => point !== 'pressure' || reference !== undefined);
  return fair.find(({ usual }) => usual.includes(unit.symbol)) ?? fair[0];
}

/** The text with the unit of its step behind it where it is a number alone. */
export function withUnit(text: string, unit: string | undefined): string {
  const plain = text.trim();
  const [, sign = '', rest = ''] = BEYOND.exec(plain) ?? [];
  const scanned = scanNumber(rest, 0);
  if (unit === undefined || unit === '' || scanned === undefined || rest.slice(scanned.end).trim() !== '') return plain;
  return `${sign === '' ? '' : `${sign} `}${rest.trim()} ${unit}`;
}

/** An instrument at the end of its range shows `> 2 Gohm`. */
const BEYOND = /^(>=?|≥|<=?|≤)?\s*(.*)$/s;

/**
 * What a text says at a step that is read in `unit`, which may be typed in any unit that fits: `1.2 Gohm` at a step in
 * Mohm is 1200. A number alone is in the step's unit. Pressures must count from the step's own zero.
 */
export function readNumber(text: string, unit: string): ReadNumber {
  const [, sign, rest = ''] = BEYOND.exec(withUnit(text, unit)) ?? [];
  const kind = kindOfUnit(unit);
  if (kind === undefined) return ofUnknownUnit(rest, unit, sign);
  const { quantity, problems } = parseQuantity(rest, kind);
  if (quantity === undefined) return { fault: problems[0]?.message ?? `'${text}' is no reading in ${unit}.` };
  return otherZero(quantity, unit) ?? { number: inUnit(quantity, unit), beyond: beyondOf(sign) };
}

/** What a text says at a step of a temperature, degC; undefined for what is none. */
export function temperatureIn(text: string, unit: string | undefined): number | undefined {
  return text.trim() === '' ? undefined : readNumber(withUnit(text, unit), 'degC').number;
}

function beyondOf(sign: string | undefined): 'above' | 'below' | undefined {
  if (sign === undefined || sign === '') return undefined;
  return /^[>≥]/.test(sign) ? 'above' : 'below';
}

/** A policy's step may count in words that are no unit: they are taken as they stand. */
function ofUnknownUnit(text: string, unit: string, sign: string | undefined): ReadNumber {
  const scanned = scanNumber(text, 0);
  const tail = scanned === undefined ? undefined : text.slice(scanned.end).trim();
  if (scanned === undefined || scanned.grouped || (tail !== '' && tail !== unit))
    return { fault: `'${text}' is no plain number. Enter the number alone; it is in ${unit}.` };
  return { number: scanned.value, beyond: beyondOf(sign) };
}

function otherZero(quantity: Quantity, unit: string): ReadNumber | undefined {
  const due = findUnit(unit)?.reference;
  if (due === undefined || quantity.reference === undefined || quantity.reference === due) return undefined;
  return { fault: `This step is read in ${unit}; enter the ${due} pressure, not the ${quantity.reference} one.` };
}

/** The digits as written where the unit is the step's own, so that nothing is rounded. */
function inUnit(quantity: Quantity, unit: string): number {
  const isOwn = findUnit(unit)?.unit.symbol === quantity.unit;
  return isOwn ? quantity.number : (toUnit(quantity.value, quantity.kind, unit) ?? Number.NaN);
}
