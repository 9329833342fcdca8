import { type Misfit, misfit, phraseOfUnit } from './kinds.ts';
import { groupedReadings, type ScannedNumber } from './number.ts';
import { SYMBOLS } from './symbols.ts';
import type { Kind, Unit } from './types.ts';
import { UNIT_TABLE } from './unit-table.ts';
import { findUnit, findUnitFault, knownSpellings, normaliseUnit, type UnitMatch } from './units.ts';

export type QuantityCheck =
  | 'document.wrong-type'
  | 'units.missing'
  | 'units.unknown'
  | 'units.wrong-dimension'
  | 'units.thousands-separator'
  | 'units.rise-for-point'
  | 'units.two-readings-disagree';

/** A way to mend a quantity; `newText` stands for the whole text. */
export interface QuantityFix {
  readonly title: string;
  readonly kind: 'mechanical' | 'offer';
  readonly newText: string;
}

/** What is wrong with the text of a quantity; `start` and `end` are offsets in it. */
export interface QuantityProblem {
  readonly check: QuantityCheck;
  readonly message: string;
  readonly start: number;
  readonly end: number;
  readonly fixes: readonly QuantityFix[];
}

/** A stretch of the text under reading. */
export interface Stretch {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

const MOST_FIXES = 4;
const LONGEST_QUOTE = 40;

export function problem(
  check: QuantityCheck,
  at: Stretch,
  message: string,
  fixes: readonly QuantityFix[] = [],
): QuantityProblem {
  return { check, message, start: at.start, end: at.end, fixes };
}

/** No number where one is due. */
export function notAQuantity(at: Stretch, kind: Kind): QuantityProblem {
  const fact = at.start === at.end ? 'No number stands here.' : `${quote(at)} does not begin with a number.`;
  return problem('document.wrong-type', at, `${fact} ${due(kind)}`);
}

/** A number that cannot be computed with: infinite, a division by zero, out of a formula's range. */
export function notComputable(at: Stretch, reason: string): QuantityProblem {
  return problem('document.wrong-type', at, `${quote(at)} cannot be computed with: ${reason}.`);
}

/** `1,850 m`: each reading is offered, none applied, since half the world reads the comma the other way. */
export function groupedNumber(at: Stretch): QuantityProblem {
  const readings = groupedReadings(at.text.slice(at.start, at.end));
  const fixes = readings.map((reading) => offer(`Write ${reading}`, replaced(at, reading)));
  const message =
    `${quote(at)} can be read as ${readings[0]} or as ${readings[1]}. ` +
    'Write the digits without separators, and a point before the decimals.';
  return problem('units.thousands-separator', at, message, fixes);
}

/** `62` where a pressure is due. */
export function missingUnit(at: Stretch, number: ScannedNumber, kind: Kind): QuantityProblem {
  const after: Stretch = { text: at.text, start: number.end, end: number.end };
  const written = at.text.slice(number.start, number.end);
  const units = kind.usual.slice(0, MOST_FIXES);
  const fixes = units.map((unit) => offer(`Write ${written} ${unit}`, replaced(after, ` ${unit}`)));
  const share = fractionMeant(written, kind);
  if (share === undefined) return problem('units.missing', at, `${quote(at)} has no unit. ${due(kind)}`, fixes);
  const message = `${quote(at)} has no unit. ${due(kind)} As a fraction it would be ${share}.`;
  return problem('units.missing', at, message, [offer(`Write ${share}`, replaced(at, share)), ...fixes]);
}

/** `0.5` where per cent are due: half of the world writes a share as a fraction. */
function fractionMeant(written: string, kind: Kind): string | undefined {
  const fraction = Number(written);
  if (!kind.usual.includes('%') || !(fraction > 0 && fraction < 1)) return undefined;
  return `${Number((fraction * 100).toPrecision(12))} %`;
}

/** A unit of another dimension than the kind's, or of a difference where a point is due, or the other way round. */
export function unfitUnit(
  at: Stretch,
  number: ScannedNumber,
  found: UnitMatch,
  kind: Kind,
  why: Misfit,
): QuantityProblem {
  if (why !== 'dimension') return riseForPoint(at, number, found.unit, kind);
  const what = phraseOfUnit(found.unit);
  const fact = what === undefined ? 'is of another dimension' : `is the unit of ${what}`;
  return problem('units.wrong-dimension', at, `${quote(at)} ${fact}. ${due(kind)}`, confusions(at, kind));
}

function riseForPoint(at: Stretch, number: ScannedNumber, unit: Unit, kind: Kind): QuantityProblem {
  const scale = unit.symbol.replace('delta ', '');
  const isRise = unit.scale === 'difference';
  const right = isRise ? scale : scale === 'degF' ? 'delta degF' : 'K';
  const whole: Stretch = { text: at.text, start: number.start, end: at.end };
  const written = at.text.slice(number.start, number.end);
  const fact = isRise ? 'is a difference of temperatures' : 'is a temperature on a scale';
  return problem(
    'units.rise-for-point',
    whole,
    `${quote(whole)} ${fact}, and ${kind.phrase} is due here. Write ${written} ${right} if that is meant.`,
    [offer(`Write ${written} ${right}`, replaced(whole, `${written} ${right}`))],
  );
}

/** `5 bar(g)` where a difference is due: a difference has no reference. */
export function referenceOnDifference(at: Stretch, found: UnitMatch, kind: Kind): QuantityProblem {
  const { symbol } = found.unit;
  return problem(
    'units.rise-for-point',
    at,
    `${quote(at)} is a pressure on the ${found.reference} scale, and ${kind.phrase} is due here, ` +
      `which takes no reference. Write ${symbol}.`,
    [offer(`Write ${symbol}`, replaced(at, symbol))],
  );
}

// Symbols often written for another one that the dimension tells apart.
const CONFUSED: readonly (readonly [string, string])[] = [
  ['lb', 'lbf'],
  ['lbs', 'lbf'],
  ['kg', 'kgf'],
  ['g', 'gn'],
  ['m', 'min'],
  ['W', 'VA'],
  ['kW', 'kVA'],
  ['VA', 'W'],
  ['kVA', 'kW'],
  ['rpm', '/min'],
  ['Hz', 'rpm'],
  ['/min', 'rpm'],
];

function confusions(at: Stretch, kind: Kind): readonly QuantityFix[] {
  const written = normaliseUnit(at.text.slice(at.start, at.end));
  const meant = CONFUSED.flatMap(([from, to]) => substitutions(written, from, to));
  return meant.filter((unit) => isRight(unit, kind)).map((unit) => offer(`Write ${unit}`, replaced(at, unit)));
}

/** The unit with one symbol replaced where it stands alone: `ft.lb` gives `ft.lbf`. */
function substitutions(unit: string, from: string, to: string): readonly string[] {
  if (unit === from) return [to];
  const parts = unit.split(/([^A-Za-z]+)/);
  return parts.includes(from) ? [parts.map((part) => (part === from ? to : part)).join('')] : [];
}

/** A spelling that `findUnit` refuses: its nearest known ones, by case first. */
export function unknownUnit(at: Stretch, kind: Kind): QuantityProblem {
  const plain = normaliseUnit(at.text.slice(at.start, at.end));
  const fault = findUnitFault(plain)!;
  if (fault.reason === 'ambiguous') return ambiguousUnit(at);
  const span = faultSpan(at, fault.start, fault.end);
  const byCase = sameButCase(plain, fault.start, fault.end);
  const candidates = byCase.length > 0 ? byCase : nearest(plain, fault.start, fault.end);
  const fitting = candidates.filter((unit) => isRight(unit, kind));
  const [only = ''] = fitting;
  const certain = fitting.length === 1 && (byCase.length > 0 ? keepsPrefix(plain, only) : isMisspeltWord(plain));
  const fixes = fitting
    .slice(0, MOST_FIXES)
    .map((unit) => fix(certain ? 'mechanical' : 'offer', `Write ${unit}`, replaced(at, unit)));
  const hint = hintOf(byCase.length > 0, fitting.length > 0 ? fitting : byCase);
  return problem('units.unknown', span, `${quote(span)} is not a known unit${hint}. ${due(kind)}`, fixes);
}

function ambiguousUnit(at: Stretch): QuantityProblem {
  const message = `${quote(at)} multiplies after a division, which can be read in two ways. Use parentheses or repeat the slash.`;
  return problem('units.unknown', at, message);
}

function hintOf(isCase: boolean, units: readonly string[]): string {
  if (units.length === 0) return '';
  const list = orList(units.slice(0, MOST_FIXES));
  return isCase ? `: capital and small letters differ, and it could be ${list}` : `; perhaps ${list} is meant`;
}

/** Known units that differ from the text in case alone, as a whole or in the part that is at fault. */
function sameButCase(plain: string, start: number, end: number): readonly string[] {
  const lower = plain.toLowerCase();
  const wholes = [...knownSpellings()].filter((spelling) => spelling.toLowerCase() === lower);
  if (wholes.length > 0) return distinctUnits(wholes);
  const part = plain.slice(start, end).toLowerCase();
  const parts = [...SYMBOLS.keys()].filter((spelling) => spelling.toLowerCase() === part);
  return distinctUnits(parts.map((spelling) => plain.slice(0, start) + spelling + plain.slice(end)));
}

function nearest(plain: string, start: number, end: number): readonly string[] {
  const part = plain.slice(start, end);
  if (part.length < 2) return [];
  const parts = [...SYMBOLS.keys()].filter((spelling) => spelling.length > 1 && isOneEditAway(part, spelling));
  return distinctUnits(parts.map((spelling) => plain.slice(0, start) + spelling + plain.slice(end)));
}

/** One spelling for each unit, the table's own where the spelling is of the table. */
function distinctUnits(spellings: readonly string[]): readonly string[] {
  const bySymbol = new Map<string, string>();
  for (const spelling of spellings) {
    const found = findUnit(spelling);
    if (found === undefined) continue;
    const written = found.reference === undefined ? found.unit.symbol : spelling;
    bySymbol.set(written, written);
  }
  return [...bySymbol.values()];
}

/** Whether mending the case leaves milli and mega alone: `KW` is surely kW, but `MBAR` is an engineer's to read. */
function keepsPrefix(written: string, mended: string): boolean {
  const places = written.length === mended.length ? mended.length : 1;
  for (let at = 0; at < places; at++) {
    const isPrefix = /^[mM][A-Za-z]/.test(mended.slice(at, at + 2));
    if (isPrefix && written[at] !== mended[at]) return false;
  }
  return true;
}

const WORDS: readonly string[] = UNIT_TABLE.flatMap((row) => row.words ?? []);

/**
 * A misspelt full name is plain. A misspelt symbol may hide a prefix, as `kpsi` does, and so may a name whose beginning
 * is not right (`mmetre`): there a fix is only an offer.
 */
function isMisspeltWord(plain: string): boolean {
  return WORDS.some((word) => word.length > 3 && word.slice(0, 2) === plain.slice(0, 2) && isOneEditAway(plain, word));
}

/** Whether one letter added, dropped, changed or swapped with its neighbour turns one text into the other. */
function isOneEditAway(a: string, b: string): boolean {
  if (a === b || Math.abs(a.length - b.length) > 1) return false;
  let same = 0;
  while (same < a.length && a[same] === b[same]) same++;
  const [restA, restB] = [a.slice(same), b.slice(same)];
  const swapped = restA[0] === restB[1] && restA[1] === restB[0] && restA.slice(2) === restB.slice(2);
  return swapped || restA.slice(1) === restB.slice(1) || restA === restB.slice(1) || restA.slice(1) === restB;
}

function isRight(unitText: string, kind: Kind): boolean {
  const found = findUnit(unitText);
  return found !== undefined && misfit(kind, found.unit) === undefined;
}

/** The place in the author's text of a fault in the normalised one, which may be longer (`Ω` is `ohm`). */
function faultSpan(at: Stretch, start: number, end: number): Stretch {
  const lengthBefore = (offset: number): number => normaliseUnit(at.text.slice(at.start, offset)).length;
  let from = at.start;
  while (from < at.end && lengthBefore(from + 1) <= start) from++;
  let to = from;
  while (to < at.end && lengthBefore(to) < end) to++;
  return { text: at.text, start: from, end: to };
}

/** What is due, in words: "A pressure is due here, usually in bar, psi or kPa." */
function due(kind: Kind): string {
  const units = kind.usual.filter((unit) => unit !== '');
  const usually = units.length === 0 ? '' : `, usually in ${orList(units)}`;
  return `${kind.phrase.charAt(0).toUpperCase()}${kind.phrase.slice(1)} is due here${usually}.`;
}

function orList(items: readonly string[]): string {
  const [allButLast, last] = [items.slice(0, -1), items.slice(-1)];
  return [allButLast.join(', '), ...last].filter((part) => part !== '').join(' or ');
}

/** The author's own text in quotes, cut where it is long. */
export function quote(at: Stretch): string {
  const written = at.text.slice(at.start, at.end);
  return `'${written.length > LONGEST_QUOTE ? `${written.slice(0, LONGEST_QUOTE)}…` : written}'`;
}

/** The whole text with this stretch replaced. */
export function replaced(at: Stretch, replacement: string): string {
  return at.text.slice(0, at.start) + replacement + at.text.slice(at.end);
}

export function offer(title: string, newText: string): QuantityFix {
  return fix('offer', title, newText);
}

function fix(kind: QuantityFix['kind'], title: string, newText: string): QuantityFix {
  return { title, kind, newText };
}
