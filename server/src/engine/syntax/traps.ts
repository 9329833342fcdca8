import type { TextFix } from '../text/problem.ts';
import type { Span } from '../text/span.ts';

/** Spellings that YAML reads otherwise than an engineer means them: what they look like and how to mend them. */

/** A key and its value with no space after the colon; not a web address. */
const GLUED_KEY = /^([A-Za-z_]\w*):(?!\/\/)([^\s:].*)$/;
const KEY_WORD = /^[A-Za-z_]\w*$/;

export function gluedKey(text: string): { readonly key: string; readonly value: string } | undefined {
  const match = GLUED_KEY.exec(text);
  return match ? { key: match[1]!, value: match[2]! } : undefined;
}

export function isKeyWord(text: string): boolean {
  return KEY_WORD.test(text);
}

/** `1` and `850 V` on the two sides of a comma. */
export function isSplitNumber(before: string, after: string): boolean {
  return /^[-+\u2212]?\d[\d,]*$/.test(before) && /^\d/.test(after);
}

/** `[1,850 V]`: a bare number of a thousand's head, and three digits with a unit. `[1,850]` may well be two numbers. */
export function isSplitQuantity(before: string, after: string): boolean {
  return /^[-+\u2212]?\d{1,3}(?:,\d{3})*$/.test(before) && /^\d{3}(?:\.\d+)?\s*[^\d\s.,]/.test(after);
}

export function replace(span: Span, newText: string, kind: TextFix['kind'], title: string): TextFix {
  return { title, kind, edits: [{ span, newText }] };
}

export function quoteFix(span: Span, text: string): TextFix {
  return replace(span, quoted(text), 'mechanical', 'Quote the text');
}

function quoted(text: string): string {
  return `"${text.replaceAll('\\', '\\\\').replaceAll('"', '\\"')}"`;
}

export function glueProblem(key: string, value: string): string {
  return `There is no space after the colon of "${key}:${value}", so YAML sees one word instead of a key and its value. Write "${key}: ${value}".`;
}

export function glueFix(span: Span, key: string, value: string): TextFix {
  return replace(span, `${key}: ${value}`, 'mechanical', 'Put a space after the colon');
}

export function commaProblem(written: string): string {
  return `"${written}" has a comma in its number, where YAML begins the next entry. Write the number with a decimal point and without grouping.`;
}

/** Both readings of a comma in a number, where both are possible; half the world reads it the other way. */
export function commaFixes(span: Span, written: string): readonly TextFix[] {
  const fixes: TextFix[] = [];
  if (/^[-+\u2212]?[1-9]\d{0,2}(?:,\d{3})+(?!\d)/.test(written)) {
    const grouped = written.replaceAll(',', '');
    fixes.push(replace(span, grouped, 'offer', `Write ${grouped} (the comma groups thousands)`));
  }
  if (/^[^,]*,[^,]*$/.test(written) && !written.includes('.')) {
    const decimal = written.replace(',', '.');
    fixes.push(replace(span, decimal, 'offer', `Write ${decimal} (the comma is a decimal comma)`));
  }
  return fixes;
}

export function listProblem(written: string): string {
  return `Inside { } a comma ends a value, so "${written}" is cut in two. Quote the text.`;
}

export function anchorProblem(written: string): string {
  return `YAML reads the "&" of "${written}" as the mark of an anchor and loses the word behind it. Remove the "&" or quote the text.`;
}

const INDICATOR_MEANINGS: Readonly<Record<string, string>> = {
  '>': 'the start of a folded text on the lines below',
  '|': 'the start of a literal text on the lines below',
  '*': 'a reference to an anchor',
  '&': 'the mark of an anchor',
  '%': 'the start of a directive',
  '@': 'a sign reserved for later',
  '`': 'a sign reserved for later',
  '!': 'a tag',
};

export function indicatorProblem(written: string): string {
  const sign = written.charAt(0);
  const meaning = INDICATOR_MEANINGS[sign] ?? 'a sign of its own';
  return `"${written}" begins with "${sign}", which YAML reads as ${meaning}. Remove the sign or quote the text.`;
}

/** Dropping a sign before a number changes an engineering value, so it is an offer; quoting a text changes nothing. */
export function indicatorFixes(span: Span, written: string): readonly TextFix[] {
  const bare = written.slice(1).trim();
  if (/^%\s*[\d.]+$/.test(written)) return [replace(span, `${bare} %`, 'offer', `Write ${bare} %`)];
  if (/^[-+.]?\d/.test(bare)) return [replace(span, bare, 'offer', `Write ${bare}`)];
  return [quoteFix(span, written)];
}

export function hashProblem(key: string, comment: string): string {
  return `"${key}" is empty: YAML reads "${comment}" as a comment. Write the value without the "#", or quote it.`;
}

export function hashFixes(span: Span, comment: string): readonly TextFix[] {
  const bare = comment.slice(1).trim();
  return [replace(span, bare, 'offer', `Write ${bare}`), quoteFix(span, comment)];
}

export const TAB_BEFORE_VALUE = 'There is a tab before this value; YAML wants spaces.';

export const TAB_INDENT = 'This line is indented with a tab; YAML wants spaces.';

export function colonProblem(written: string): string {
  return `"${written}" has a colon followed by a space, which YAML reads as a second key on the line. Quote the text.`;
}

/** `1210 m tvd: 1195 m` in braces: two entries that a comma should part. */
export function lostComma(written: string): LostComma | undefined {
  const [, before, key, after] = /^(\S.*?)\s+([a-z]\w*)(:\s.*)$/s.exec(written) ?? [];
  return before === undefined || key === undefined || after === undefined ? undefined : { before, key, after };
}

interface LostComma {
  readonly before: string;
  readonly key: string;
  readonly after: string;
}

export function lostCommaProblem({ before, key }: LostComma): string {
  return `Between "${before}" and "${key}" a comma is missing, so YAML reads both as one value. Put one in.`;
}

export function lostCommaFix(span: Span, { before, key, after }: LostComma): TextFix {
  return replace(span, `${before}, ${key}${after}`, 'offer', `Put a comma before "${key}"`);
}

export function bareProblem(written: string): string {
  return `"${written}" has no colon, so it is no entry. Write "${written}: value".`;
}

export function openQuoteProblem(written: string): string {
  return `The quote of ${written} is not closed at the end of the line, or a quote stands inside it. Close it, and write a quote inside single quotes twice.`;
}

export function requoteFix(span: Span, written: string): TextFix {
  const quote = written.charAt(0);
  const inner = written.endsWith(quote) && written.length > 1 ? written.slice(1, -1) : written.slice(1);
  return quoteFix(span, inner);
}
