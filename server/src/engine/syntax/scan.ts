/** Small scans over a text that the parsers leave to us, since their events name no punctuation. */

const TAB = 9;
const LF = 10;
const CR = 13;
const SPACE = 32;
const HASH = 35;
const COMMA = 44;

export function isBlank(code: number): boolean {
  return code === SPACE || code === TAB;
}

export function isBreak(code: number): boolean {
  return code === LF || code === CR;
}

/** White space, a line break or the end of the text (`NaN`): what may follow an indicator. */
export function isGap(code: number): boolean {
  return isBlank(code) || isBreak(code) || Number.isNaN(code);
}

/** The offset of the next character that is no white space, line break or comment. */
export function skipSpace(text: string, from: number): number {
  let at = from;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (code === HASH && at > 0 && isGap(text.charCodeAt(at - 1))) at = lineEnd(text, at);
    else if (isBlank(code) || isBreak(code)) at++;
    else break;
  }
  return at;
}

/** As {@link skipSpace}, and over commas: from the last item of a flow collection to its bracket. */
export function skipToBracket(text: string, from: number): number {
  let at = skipSpace(text, from);
  while (text.charCodeAt(at) === COMMA) at = skipSpace(text, at + 1);
  return at;
}

export function lineStart(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && !isBreak(text.charCodeAt(at - 1))) at--;
  return at;
}

export function lineEnd(text: string, offset: number): number {
  let at = offset;
  while (at < text.length && !isBreak(text.charCodeAt(at))) at++;
  return at;
}

/** The end of what is written between `start` and `end`, without white space and line breaks behind it. */
export function trimEnd(text: string, start: number, end: number): number {
  let at = end;
  while (at > start && isGap(text.charCodeAt(at - 1))) at--;
  return at;
}

/** The marker with which a second document begins after `from`, or the first thing in it when there is no marker. */
export function startOfSecond(text: string, from: number): { readonly start: number; readonly end: number } {
  const marker = /^---(?=\s|$)/gm;
  marker.lastIndex = from;
  const start = marker.exec(text)?.index;
  if (start !== undefined) return { start, end: start + 3 };
  const first = skipSpace(text, from);
  return { start: first, end: lineEnd(text, first) };
}
