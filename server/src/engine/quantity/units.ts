import { readCompound, type UnitFault } from './compound.ts';
import { BARE, SYMBOLS } from './symbols.ts';
import type { Reference, Unit } from './types.ts';
import { COMMON_COMPOUNDS } from './unit-table.ts';

/** A unit as found from a spelling, with the pressure reference that the spelling stated. */
export interface UnitMatch {
  readonly unit: Unit;
  readonly reference: Reference | undefined;
}

// Characters read as others. Superscripts become digits, so `m³` and `m3` are one spelling.
const SUBSTITUTES: ReadonlyMap<string, string> = new Map([
  ...pairs('µμ', 'u'),
  ...pairs('ΩΩ', 'ohm'),
  ...pairs('°º˚', 'deg'),
  ...pairs('Δ∆', 'delta '),
  ...pairs('·⋅∙×*', '.'),
  ...pairs('−⁻–', '-'),
  ...pairs('\u00a0\u202f\u2009\u2007\t', ' '),
  ...pairs('″“”', '"'),
  ...[...'⁰¹²³⁴⁵⁶⁷⁸⁹'].map((digit, value): [string, string] => [digit, String(value)]),
  ['℃', 'degC'],
  ['℉', 'degF'],
]);

function pairs(from: string, to: string): [string, string][] {
  return [...from].map((character) => [character, to]);
}

/** A unit's text with its signs spelled the one way that the table uses (`µ` u, `Ω` ohm, `°` deg, `²` 2, `·` .). */
export function normaliseUnit(text: string): string {
  let plain = '';
  let last = '';
  for (const character of text) {
    const next = SUBSTITUTES.get(character) ?? character;
    if (next !== ' ' || !last.endsWith(' ')) plain += next;
    last = next;
  }
  return plain;
}

const PRESSURES = ['bar', 'mbar', 'psi', 'kPa', 'MPa', 'hPa', 'Pa', 'atm', 'kgf/cm2'];
const REFERENCE_MARKS: readonly (readonly [Reference, readonly string[]])[] = [
  ['gauge', ['(g)', ' (g)', 'g', ' g', '(gauge)', ' gauge']],
  ['absolute', ['(a)', ' (a)', 'a', ' a', '(abs)', ' (abs)', ' abs']],
];

const SPELLINGS: ReadonlyMap<string, UnitMatch> = prepareSpellings();

/**
 * The unit that a text spells (`bar(g)`, `m3/d/bar`, `°C`), or undefined. An empty text is the bare number's unit.
 * Surrounding blanks are not accepted: trim first.
 */
export function findUnit(text: string): UnitMatch | undefined {
  const known = SPELLINGS.get(text);
  if (known !== undefined) return known;
  const plain = normaliseUnit(text);
  return SPELLINGS.get(plain) ?? compoundMatch(plain);
}

/** Where and why a normalised text that `findUnit` refuses makes no sense; undefined for a product of known units. */
export function findUnitFault(plain: string): UnitFault | undefined {
  const outcome = readCompound(plain);
  return 'reason' in outcome ? outcome : undefined;
}

/** Every spelling that is looked up whole, compounds and pressure references included. */
export function knownSpellings(): IterableIterator<string> {
  return SPELLINGS.keys();
}

function prepareSpellings(): Map<string, UnitMatch> {
  const spellings = new Map<string, UnitMatch>([['', match(BARE)]]);
  for (const [spelling, unit] of SYMBOLS) spellings.set(spelling, match(unit));
  for (const compound of COMMON_COMPOUNDS) spellings.set(compound, compoundMatch(compound)!);
  for (const pressure of PRESSURES) addReferences(spellings, pressure);
  return spellings;
}

function addReferences(spellings: Map<string, UnitMatch>, pressure: string): void {
  const { unit } = spellings.get(pressure)!;
  for (const [reference, marks] of REFERENCE_MARKS) {
    const found = match(unit, reference);
    for (const mark of marks) spellings.set(pressure + mark, found);
  }
}

function match(unit: Unit, reference?: Reference): UnitMatch {
  return Object.freeze({ unit, reference });
}

function compoundMatch(plain: string): UnitMatch | undefined {
  const outcome = readCompound(plain);
  return 'reason' in outcome ? undefined : match(outcome);
}
