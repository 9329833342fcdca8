import type { Problem } from '../text/problem.ts';
import type { SourceText } from '../text/source.ts';
import type { Span } from '../text/span.ts';

/** What a document may cost. Beyond any of these it is hostile or broken, and gets one clear error. */
export const LIMITS = {
  /** Size of the text in UTF-8. */
  bytes: 1024 * 1024,
  /** Collections inside one another. */
  depth: 64,
  nodes: 100_000,
  anchors: 1000,
  /** Problems listed for one text; the rest are counted. */
  problems: 100,
} as const;

const SUSPECT = /[\x00-\x08\x0B\x0C\x0E-\x1F\x7F-\x84\x86-\x9F\uD800-\uDFFF\uFFFD-\uFFFF]/;
/** With the `u` flag a paired surrogate is one character above U+FFFF, so this finds lone ones only. */
const NOT_TEXT = /[\x00-\x08\x0B\x0C\x0E-\x1F\x7F-\x84\x86-\x9F\uD800-\uDFFF\uFFFE\uFFFF]/u;

/** The one problem of a text that is too large or no text at all; such a text is not parsed. */
export function findUnreadable(source: SourceText): Problem | undefined {
  const { text } = source;
  if (exceedsBytes(text, LIMITS.bytes)) return tooLarge(text);
  if (!SUSPECT.test(text)) return undefined;
  const at = text.search(NOT_TEXT);
  if (at >= 0) return controlCharacter(text, at);
  return isFloodedByReplacements(text) ? wrongEncoding(text) : undefined;
}

/** A code unit takes one to three bytes, so most texts are settled by their length alone. */
function exceedsBytes(text: string, limit: number): boolean {
  if (text.length > limit) return true;
  if (text.length * 3 <= limit) return false;
  let bytes = 0;
  for (let at = 0; at < text.length; at++) bytes += bytesOf(text.charCodeAt(at));
  return bytes > limit;
}

function bytesOf(unit: number): number {
  if (unit < 0x80) return 1;
  const isSurrogate = unit >= 0xd800 && unit <= 0xdfff;
  return unit < 0x800 || isSurrogate ? 2 : 3;
}

/** Bytes that are no UTF-8 were decoded to U+FFFD. One is a slip of a keyboard; one in fifty is another encoding. */
function isFloodedByReplacements(text: string): boolean {
  const count = text.split('\uFFFD').length - 1;
  return count > 4 && count * 50 > text.length;
}

function tooLarge(text: string): Problem {
  const mebibytes = (text.length / LIMITS.bytes).toFixed(1);
  const message = `This text is larger than 1 MiB (about ${mebibytes} MiB). Split it, or move what is no entry of the document out of it.`;
  return { check: 'document.too-large', message, span: firstLine(text), fixes: [] };
}

function controlCharacter(text: string, at: number): Problem {
  const unit = text.charCodeAt(at);
  const code = unit.toString(16).toUpperCase().padStart(4, '0');
  const message = isEscapedByte(unit)
    ? `The byte ${code.slice(2)} (hexadecimal) here is not UTF-8. Save the file as UTF-8 text.`
    : `The character U+${code} has no place in a text. Remove it, or save the file as plain UTF-8 text.`;
  return { check: 'document.not-text', message, span: { start: at, end: at + 1 }, fixes: [] };
}

/** A host that meets a byte that is no UTF-8 hands it on as a lone surrogate, U+DC80 to U+DCFF. */
function isEscapedByte(unit: number): boolean {
  return unit >= 0xdc80 && unit <= 0xdcff;
}

function wrongEncoding(text: string): Problem {
  const start = text.indexOf('\uFFFD');
  const message = 'Many characters of this file could not be decoded as UTF-8. Save the file as UTF-8 text.';
  return { check: 'document.not-text', message, span: { start, end: start + 1 }, fixes: [] };
}

function firstLine(text: string): Span {
  const end = text.slice(0, 200).search(/[\r\n]/);
  return { start: 0, end: end < 0 ? Math.min(200, text.length) : end };
}
