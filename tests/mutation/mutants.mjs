// Finds what can be changed in a source text: each constant by one per cent, each sign and comparison the other way.

/** Stretches of a text in which nothing is code that computes: comments, strings, type parameters of imports. */
const NOT_CODE =
  /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`|^import[\s\S]*?;$/gm;
const NUMBER = /(?<![\w.$#[])(?:0x[\da-f]+|\d[\d_]*(?:\.\d+)?(?:e[+-]?\d+)?)(?![\w$\]])/gi;
const SIGN = /(?<=[\w)\]]) ([+\-*/]) (?=[\w(])/g;
const COMPARISON = / (<=|>=|<|>) (?=[\w(-])/g;
const OTHER_SIGN = { '+': '-', '-': '+', '*': '/', '/': '*' };
const OTHER_COMPARISON = { '<': '>', '>': '<', '<=': '>=', '>=': '<=' };

/** @returns {{start: number, end: number, text: string, what: string}[]} in the order of the text */
export function mutantsOf(source) {
  const code = source.replace(NOT_CODE, (stretch) => stretch.replace(/[^\n]/g, ' '));
  return [
    ...matches(code, NUMBER).flatMap(({ start, text }) => numberMutant(start, text)),
    ...matches(code, SIGN).map(({ start, text }) => swap(start, text, OTHER_SIGN)),
    ...matches(code, COMPARISON)
      .filter(({ start, text }) => !looksLikeType(code, start, text))
      .map(({ start, text }) => swap(start, text, OTHER_COMPARISON)),
  ].sort((a, b) => a.start - b.start);
}

function matches(code, pattern) {
  return [...code.matchAll(pattern)].map((match) => ({ start: match.index, text: match[0] }));
}

function numberMutant(start, text) {
  const number = Number(text.replaceAll('_', ''));
  // Zero has no per cent, and small whole numbers are counts and indices as often as constants: those move by one.
  const next = number === 0 ? '1' : String(Number.isInteger(number) && number < 3 ? number + 1 : number * 1.01);
  return [{ start, end: start + text.length, text: next, what: `${text} → ${next}` }];
}

function swap(start, text, other) {
  const operator = text.trim();
  const at = start + text.indexOf(operator);
  return { start: at, end: at + operator.length, text: other[operator], what: `${operator} → ${other[operator]}` };
}

function looksLikeType(code, start, text) {
  return text.trim() === '<' && /[A-Z]\w*$/.test(code.slice(Math.max(0, start - 20), start));
}

export function lineOf(source, offset) {
  return source.slice(0, offset).split('\n').length;
}
