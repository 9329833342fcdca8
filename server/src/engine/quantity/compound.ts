import { BARE, SYMBOLS } from './symbols.ts';
import type { Dimension, Nature, Unit, UnitSystem } from './types.ts';
import { NUMBER } from './unit-table.ts';

/** Where a unit's spelling stops making sense, as offsets in the normalised text, and why. */
export interface UnitFault {
  readonly start: number;
  readonly end: number;
  readonly reason: 'unknown' | 'ambiguous' | 'too-long';
}

// A longer text is no unit that anybody writes, and the limit keeps the work on hostile text small.
const LONGEST_UNIT = 48;

/** A place in a unit's text; `fault` is set once, at the first thing that makes no sense. */
interface Cursor {
  readonly text: string;
  at: number;
  fault: UnitFault | undefined;
}

/** Reads products, quotients and powers of the table's units, such as `m3/(d.bar)`, from a normalised text. */
export function readCompound(plain: string): Unit | UnitFault {
  if (plain.length > LONGEST_UNIT) return { start: 0, end: plain.length, reason: 'too-long' };
  const cursor: Cursor = { text: plain, at: 0, fault: undefined };
  const unit = readProduct(cursor, false);
  if (cursor.fault === undefined && cursor.at < plain.length) fail(cursor, cursor.at, 'unknown');
  if (!Number.isFinite(unit.numerator) || !Number.isFinite(unit.denominator)) fail(cursor, 0, 'unknown');
  return cursor.fault ?? unit;
}

function fail(cursor: Cursor, start: number, reason: UnitFault['reason']): Unit {
  let end = start + 1;
  while (isLetter(cursor.text.charCodeAt(start)) && isLetter(cursor.text.charCodeAt(end))) end++;
  cursor.fault ??= { start, end: Math.min(end, cursor.text.length), reason };
  return BARE;
}

function readProduct(cursor: Cursor, countAllowed: boolean): Unit {
  let unit = startsAsReciprocal(cursor) ? BARE : readFactor(cursor, countAllowed);
  let divided = false;
  while (cursor.fault === undefined) {
    const start = cursor.at;
    const operator = readOperator(cursor);
    if (operator === undefined) break;
    // `W/m.K` means one thing to a mathematician and another to most who write it, so it is refused.
    if (operator === '.' && divided) return fail(cursor, start, 'ambiguous');
    divided ||= operator === '/';
    unit = combine(unit, readFactor(cursor, true), operator);
  }
  return unit;
}

function startsAsReciprocal(cursor: Cursor): boolean {
  if (cursor.text.startsWith('1/')) cursor.at = 1;
  return cursor.text[cursor.at] === '/';
}

function readOperator(cursor: Cursor): '/' | '.' | undefined {
  const { text } = cursor;
  const start = cursor.at;
  while (text[cursor.at] === ' ') cursor.at++;
  const sign = text[cursor.at];
  if (sign === undefined || sign === ')') return undefined;
  if (sign !== '/' && sign !== '.' && sign !== '-') return cursor.at > start ? '.' : undefined;
  cursor.at++;
  while (text[cursor.at] === ' ') cursor.at++;
  return sign === '/' ? '/' : '.';
}

function readFactor(cursor: Cursor, countAllowed: boolean): Unit {
  const count = countAllowed ? readCount(cursor) : 1;
  const unit = cursor.text[cursor.at] === '(' ? readGroup(cursor) : readPower(cursor);
  return count === 1 ? unit : multiple(unit, count);
}

/** The 1000 of `V/1000 ft`. */
function readCount(cursor: Cursor): number {
  const start = cursor.at;
  while (isDigit(cursor.text.charCodeAt(cursor.at))) cursor.at++;
  const count = cursor.at === start ? 1 : Number(cursor.text.slice(start, cursor.at));
  while (cursor.text[cursor.at] === ' ') cursor.at++;
  if (count === 0 || cursor.at - start > 8) fail(cursor, start, 'unknown');
  return count;
}

function readGroup(cursor: Cursor): Unit {
  cursor.at++;
  const unit = readProduct(cursor, true);
  if (cursor.fault !== undefined) return unit;
  if (cursor.text[cursor.at] !== ')') return fail(cursor, cursor.at, 'unknown');
  cursor.at++;
  return { ...unit, symbol: `(${unit.symbol})` };
}

function readPower(cursor: Cursor): Unit {
  const { text } = cursor;
  const start = cursor.at;
  while (isUnitCharacter(text.charCodeAt(cursor.at))) cursor.at++;
  const unit = SYMBOLS.get(text.slice(start, cursor.at)) ?? standardVolume(cursor, start);
  // Gravity and wire gauge are formulas, not factors: they cannot be multiplied.
  if (unit === undefined || unit.scale === 'api' || unit.scale === 'awg') return fail(cursor, start, 'unknown');
  return power(unit, readExponent(cursor));
}

/** `Sm3` is one symbol that ends in a digit. */
function standardVolume(cursor: Cursor, start: number): Unit | undefined {
  const unit = SYMBOLS.get(cursor.text.slice(start, cursor.at + 1));
  if (unit !== undefined) cursor.at++;
  return unit;
}

/** `2`, `^2`, `-1`, `^-1`; 1 when there is none. A hyphen before a letter is a product's and is left alone. */
function readExponent(cursor: Cursor): number {
  const { text } = cursor;
  let at = cursor.at;
  if (text[at] === '^') at++;
  const negative = text[at] === '-';
  if (negative) at++;
  const digit = text.charCodeAt(at) - 48;
  if (!(digit >= 1 && digit <= 9)) return 1;
  cursor.at = at + 1;
  return negative ? -digit : digit;
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

function isLetter(code: number): boolean {
  return (code >= 65 && code <= 90) || (code >= 97 && code <= 122);
}

function isUnitCharacter(code: number): boolean {
  return isLetter(code) || code === 37 || code === 34 || code === 95;
}

function multiple(unit: Unit, count: number): Unit {
  const numerator = unit.numerator * count;
  return { ...unit, symbol: `${count} ${unit.symbol}`, numerator, factor: numerator / unit.denominator };
}

function power(unit: Unit, exponent: number): Unit {
  if (exponent === 1) return unit;
  const size = Math.abs(exponent);
  const [up, down] = exponent > 0 ? [unit.numerator, unit.denominator] : [unit.denominator, unit.numerator];
  const numerator = up ** size;
  const denominator = down ** size;
  return {
    symbol: `${unit.symbol}${exponent}`,
    numerator,
    denominator,
    factor: numerator / denominator,
    offset: 0,
    dimension: sum(NUMBER, unit.dimension, exponent),
    nature: unit.nature === 'plain' ? 'plain' : 'mixed',
    scale: 'linear',
    system: unit.system,
  };
}

/** Inside a compound a unit has lost its origin: `degC/km` counts kelvins. */
function combine(a: Unit, b: Unit, operator: '/' | '.'): Unit {
  const [up, down] = operator === '.' ? [b.numerator, b.denominator] : [b.denominator, b.numerator];
  const numerator = a.numerator * up;
  const denominator = a.denominator * down;
  return {
    symbol: a.symbol + operator + b.symbol,
    numerator,
    denominator,
    factor: numerator / denominator,
    offset: 0,
    dimension: sum(a.dimension, b.dimension, operator === '.' ? 1 : -1),
    nature: combinedNature(a.nature, b.nature),
    scale: 'linear',
    system: combinedSystem(a.system, b.system),
  };
}

function sum(a: Dimension, b: Dimension, times: number): Dimension {
  return {
    length: a.length + b.length * times,
    mass: a.mass + b.mass * times,
    time: a.time + b.time * times,
    current: a.current + b.current * times,
    temperature: a.temperature + b.temperature * times,
  };
}

function combinedNature(a: Nature, b: Nature): Nature {
  if (a === 'plain' || a === 'bare') return b;
  return b === 'plain' ? a : 'mixed';
}

function combinedSystem(a: UnitSystem, b: UnitSystem): UnitSystem {
  if (a === 'oilfield' || b === 'oilfield') return 'oilfield';
  return a === 'metric' ? a : b;
}
