import { scanNumber } from '../quantity/number.ts';
import { parseQuantity } from '../quantity/parse.ts';
import type { Kind, Quantity } from '../quantity/types.ts';
import { findUnit, type UnitMatch } from '../quantity/units.ts';

/**
 * A quantity with its units spelled the one way that we write them, a blank before each; number, unit, tolerance and
 * second reading stay the author's own. The text itself where there is nothing to tidy, or where it would be read
 * differently afterwards.
 */
export function tidyQuantity(text: string, kind: Kind): string {
  const tidied = withTidyUnits(text);
  if (tidied === text) return text;
  const before = parseQuantity(text, kind).quantity;
  const after = parseQuantity(tidied, kind).quantity;
  return before !== undefined && after !== undefined && isSame(before, after) ? tidied : text;
}

function withTidyUnits(text: string): string {
  let tidied = '';
  let at = 0;
  while (at < text.length) {
    const number = scanNumber(text, at);
    if (number === undefined) break;
    const end = endOfUnit(text, number.end);
    tidied += text.slice(at, number.end) + unitText(text.slice(number.end, end), end < text.length);
    at = afterSign(text, end);
    tidied += text.slice(end, at).replace(/^=$/, '= ');
  }
  return tidied + text.slice(at);
}

/** A unit after its number; what is no unit stays as it is. */
function unitText(written: string, isFollowed: boolean): string {
  const found = findUnit(written.trim());
  if (found === undefined) return written;
  const spelled = spellingOf(found);
  return `${spelled === '' ? '' : ' '}${spelled}${isFollowed ? ' ' : ''}`;
}

const MARKS = { gauge: '(g)', absolute: '(a)' } as const;

function spellingOf({ unit, reference }: UnitMatch): string {
  return reference === undefined ? unit.symbol : `${unit.symbol}${MARKS[reference]}`;
}

/** Before a tolerance or a second reading. */
function endOfUnit(text: string, start: number): number {
  const at = text.slice(start).search(/[=+±]/);
  return at < 0 ? text.length : start + at;
}

function afterSign(text: string, at: number): number {
  return at + (/^(?:=|±|\+\/?[-−]?)\s*/.exec(text.slice(at))?.[0].length ?? 0);
}

function isSame(a: Quantity, b: Quantity): boolean {
  const keys = ['value', 'number', 'unit', 'reference', 'tolerance', 'resolution', 'alternate'] as const;
  return keys.every((key) => Object.is(a[key], b[key]));
}
