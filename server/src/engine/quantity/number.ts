/** A number at the start of a quantity, as scanned. */
export interface ScannedNumber {
  readonly value: number;
  readonly start: number;
  readonly end: number;
  /** One unit of the last digit written: 0.1 for `4.9`, 100 for `1.2e3`, 1/8 for `2 7/8`. */
  readonly step: number;
  /** For wire gauges: 3 for `3/0` and `000`, 1 for `0`; 0 for any other number. */
  readonly aughts: number;
  /** Digits are set apart by a comma, blank, apostrophe, underscore or second point: the value is not to be used. */
  readonly grouped: boolean;
}

/** Scans the number at `start` (blanks before it are passed over), or undefined where none begins. Linear time. */
export function scanNumber(text: string, start: number): ScannedNumber | undefined {
  const from = skipBlanks(text, start);
  const first = text.charCodeAt(from);
  const negative = first === 45 || first === 0x2212;
  const digits = negative || first === 43 ? from + 1 : from;
  const whole = skipDigits(text, digits);
  const groupedEnd = endOfGroups(text, digits, whole);
  if (groupedEnd > whole) return token(Number.NaN, from, groupedEnd, 1, 0, true);
  const fraction = whole > digits ? scanFraction(text, digits, whole, negative) : undefined;
  return fraction === undefined ? scanDecimal(text, from, digits, whole) : { ...fraction, start: from };
}

/** The same digits without any separator, and with the last separator as decimal point: how a grouped number reads. */
export function groupedReadings(written: string): readonly [withoutSeparators: string, decimal: string] {
  const signed = written.replaceAll('\u2212', '-');
  const parts = signed.split(/[^0-9+-]+/);
  return [parts.join(''), `${parts.slice(0, -1).join('')}.${parts.slice(-1).join('')}`];
}

function token(
  value: number,
  start: number,
  end: number,
  step: number,
  aughts: number,
  grouped: boolean,
): ScannedNumber {
  return { value, start, end, step, aughts, grouped };
}

function scanDecimal(text: string, from: number, digits: number, whole: number): ScannedNumber | undefined {
  const hasPoint = text.charCodeAt(whole) === 46;
  const places = hasPoint ? skipDigits(text, whole + 1) : whole;
  const decimals = hasPoint ? places - whole - 1 : 0;
  if (whole === digits && decimals === 0) return undefined;
  const end = skipExponent(text, places);
  const size = Number(end === places ? text.slice(digits, end) : withPlainSigns(text.slice(digits, end)));
  const isNegative = digits > from && text.charCodeAt(from) !== 43 && size > 0;
  const exponent = end === places ? 0 : Number(withPlainSigns(text.slice(places + 1, end)));
  const aughts = end === whole ? countAughts(text, digits, whole) : 0;
  return token(isNegative ? -size : size, from, end, stepOf(exponent - decimals), aughts, false);
}

const USUAL_STEPS = [1, 0.1, 0.01, 0.001, 1e-4];

function stepOf(exponent: number): number {
  return USUAL_STEPS[-exponent] ?? 10 ** exponent;
}

function withPlainSigns(digits: string): string {
  return digits.replaceAll('\u2212', '-');
}

function countAughts(text: string, start: number, end: number): number {
  if (text.charCodeAt(start) !== 48) return 0;
  for (let at = start; at < end; at++) if (text.charCodeAt(at) !== 48) return 0;
  return end - start;
}

function skipExponent(text: string, at: number): number {
  if ((text.charCodeAt(at) | 32) !== 101) return at;
  const sign = text.charCodeAt(at + 1);
  const digits = sign === 43 || sign === 45 || sign === 0x2212 ? at + 2 : at + 1;
  const end = skipDigits(text, digits);
  return end > digits ? end : at;
}

/** `7/8`, `2 7/8`, `2-7/8`; also `4/0`, which only a wire gauge can be. */
function scanFraction(text: string, digits: number, whole: number, negative: boolean): ScannedNumber | undefined {
  if (text.charCodeAt(whole) === 47) return fractionOf(text, 0, digits, whole, negative);
  const upper = text.charCodeAt(whole) === 45 ? whole + 1 : skipBlanks(text, whole);
  const slash = skipDigits(text, upper);
  if (upper === whole || slash === upper || text.charCodeAt(slash) !== 47) return undefined;
  return fractionOf(text, Number(text.slice(digits, whole)), upper, slash, negative);
}

function fractionOf(
  text: string,
  whole: number,
  upper: number,
  slash: number,
  negative: boolean,
): ScannedNumber | undefined {
  const end = skipDigits(text, slash + 1);
  if (end === slash + 1) return undefined;
  const numerator = Number(text.slice(upper, slash));
  const denominator = Number(text.slice(slash + 1, end));
  if (denominator === 0) return token(Number.NaN, upper, end, 1, negative || whole > 0 ? 0 : numerator, false);
  const size = (whole * denominator + numerator) / denominator;
  return token(negative && size > 0 ? -size : size, upper, end, 1 / denominator, 0, false);
}

/** The end of digits set apart in groups, or `whole` when they are not. */
function endOfGroups(text: string, digits: number, whole: number): number {
  let end = whole;
  let points = 0;
  while (end > digits) {
    const isPoint = text.charCodeAt(end) === 46;
    const next = endOfGroup(text, end);
    if (next === end) break;
    points += isPoint ? 1 : 0;
    end = next;
  }
  // A single point is the decimal point, and `1.850` is a number like any other.
  return points === 1 && end === skipDigits(text, whole + 1) && text.charCodeAt(whole) === 46 ? whole : end;
}

function endOfGroup(text: string, at: number): number {
  const separator = text.charCodeAt(at);
  const end = skipDigits(text, at + 1);
  const size = end - at - 1;
  if (isBlank(separator)) return size === 3 && text.charCodeAt(end) !== 47 ? end : at;
  const separates =
    separator === 44 || separator === 46 || separator === 39 || separator === 0x2019 || separator === 95;
  return separates && size > 0 ? end : at;
}

function skipDigits(text: string, at: number): number {
  let end = at;
  while (isDigit(text.charCodeAt(end))) end++;
  return end;
}

export function skipBlanks(text: string, at: number): number {
  let end = at;
  while (isBlank(text.charCodeAt(end))) end++;
  return end;
}

/** Blanks, tabs, line ends of a folded scalar and the no-break kinds of space. */
export function isBlank(code: number): boolean {
  if (code < 128) return code === 32 || (code >= 9 && code <= 13);
  return code === 0xa0 || code === 0x202f || code === 0x2009 || code === 0x2007;
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}
