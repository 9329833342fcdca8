import type { TextFix } from '../text/problem.ts';
import type { SourceText } from '../text/source.ts';
import type { Span } from '../text/span.ts';
import type { Refusal } from './fast.ts';
import type { ProblemList } from './problems.ts';
import { isBlank, isGap, lineEnd, lineStart, skipSpace, trimEnd } from './scan.ts';
import * as traps from './traps.ts';
import type { Masked } from './writer.ts';

/** A carriage return alone breaks a line in YAML, and one of the parsers does not know it. */
function withLineFeeds(text: string): string {
  return text.includes('\r') ? text.replace(/\r(?!\n)/g, '\n') : text;
}

/**
 * Known slips that no parser gets past. Each is reported at its place and masked by characters that mean nothing, so
 * that the rest of the text is read as if it were mended, at unchanged offsets.
 */
export class Mask implements Masked {
  readonly source: SourceText;
  readonly values = new Map<number, Span>();
  readonly #problems: ProblemList;
  structure: string;

  constructor(source: SourceText, problems: ProblemList) {
    this.source = source;
    this.structure = withLineFeeds(source.text);
    this.#problems = problems;
    this.#hideDirectives();
  }

  /** Masks what made the parser give up; false if that is none of the known slips. */
  hide(refusal: Refusal): boolean {
    const at = refusal.offset;
    return (
      this.#hideTabs(at) ||
      this.#hideIndicator(refusal) ||
      this.#hideColon(at) ||
      this.#hideDeeperLines(at) ||
      this.#hideAbove(at, 4, (start) => this.hideGluedLine(start)) ||
      this.#hideBareLine(refusal) ||
      this.#hideHash(at) ||
      this.#hideBracket(refusal) ||
      this.#hideQuotes(refusal) ||
      this.#hideLine(at)
    );
  }

  /** `%YAML 1.2` and its like, before the document begins. */
  #hideDirectives(): void {
    let at = this.structure.charCodeAt(0) === 0xfeff ? 1 : 0;
    for (at = skipSpace(this.structure, at); this.structure[at] === '%'; at = skipSpace(this.structure, at)) {
      const span = { start: at, end: lineEnd(this.structure, at) };
      this.#report(span, 'Directives are not taken; the text is always YAML 1.2. Remove this line.', []);
      this.#overwrite(at, '#');
    }
  }

  /** A file indented with tabs is one slip, however many lines it has. */
  #hideTabs(at: number): boolean {
    const start = lineStart(this.structure, at);
    const indent = /^[ \t]*/.exec(this.structure.slice(start, lineEnd(this.structure, at)))![0];
    const tab = indent.indexOf('\t');
    if (tab < 0) return false;
    const spans = tabIndents(this.structure, start);
    const edits = spans.map((span) => ({
      span,
      newText: this.structure.slice(span.start, span.end).replaceAll('\t', '  '),
    }));
    const fix: TextFix = { title: 'Indent with spaces', kind: 'mechanical', edits };
    this.#report({ start: start + tab, end: start + indent.lastIndexOf('\t') + 1 }, traps.TAB_INDENT, [fix]);
    for (const { start: from, end } of spans) this.#overwrite(from, ' '.repeat(end - from));
    return true;
  }

  /** A value that begins with a sign of YAML: `>5 m`, `*5 m`, `@x`, `%10`. */
  #hideIndicator({ offset }: Refusal): boolean {
    const entry = this.#entryAt(offset);
    const sign = this.structure.charAt(entry.start);
    const isIndicator = /[>|*&%@`!]/.test(sign) && entry.start <= offset && entry.end > entry.start;
    if (!isIndicator) return false;
    const span = { start: entry.start, end: entry.end };
    const written = this.source.slice(span);
    this.#report(span, traps.indicatorProblem(written), traps.indicatorFixes(span, written));
    this.#overwrite(entry.start, 'x');
    return true;
  }

  /** `reason: a: b`: a second colon on the line. */
  #hideColon(at: number): boolean {
    if (this.structure[at] !== ':' || !isGap(this.structure.charCodeAt(at + 1))) return false;
    const entry = this.#entryAt(at);
    if (!entry.hasKey || entry.start >= at || /["'[{]/.test(this.structure.charAt(entry.start))) return false;
    const span = { start: entry.start, end: entry.end };
    const written = this.source.slice(span);
    const lost = this.#isInBraces(entry.start) ? traps.lostComma(written) : undefined;
    if (lost === undefined) this.#report(span, traps.colonProblem(written), [traps.quoteFix(span, written)]);
    else this.#report(span, traps.lostCommaProblem(lost), [traps.lostCommaFix(span, lost)]);
    const value = this.structure.slice(span.start, span.end);
    this.#overwrite(span.start, value.replace(/:(?=\s|$)/g, 'x'));
    return true;
  }

  #isInBraces(at: number): boolean {
    const before = this.structure.slice(lineStart(this.structure, at), at);
    return before.lastIndexOf('{') > before.lastIndexOf('}');
  }

  /** A line deeper than the one above, which has a value already: YAML takes both for one text, up to the colon. */
  #hideDeeperLines(at: number): boolean {
    const start = lineStart(this.structure, at);
    const indent = indentAt(this.structure, start);
    if (this.structure[at] !== ':' || this.#entryAt(at).hasKey || indent <= this.#indentAbove(start)) return false;
    const message =
      'This line is indented deeper than the entry above, which has a value already. Line it up with its neighbours.';
    this.#report({ start: start + indent, end: at }, message, []);
    let line = start;
    while (line < this.structure.length && indentAt(this.structure, line) >= indent) {
      this.#overwrite(line + indentAt(this.structure, line), '#');
      line = nextLine(this.structure, line);
    }
    return true;
  }

  /** Indent of the nearest line above that says something. */
  #indentAbove(start: number): number {
    let line = start;
    while (line > 0) {
      line = lineStart(this.structure, line - 1);
      const first = this.structure[line + indentAt(this.structure, line)];
      if (first !== undefined && first !== '#' && !isGap(first.charCodeAt(0))) return indentAt(this.structure, line);
    }
    return Number.POSITIVE_INFINITY;
  }

  /** The parser often gives up below the line at fault: tries that line and up to `reach` lines above it. */
  #hideAbove(at: number, reach: number, hides: (start: number) => boolean): boolean {
    let start = lineStart(this.structure, at);
    for (let lines = 0; lines < reach; lines++) {
      if (lineEnd(this.structure, start) - start < MAX_LINE && hides(start)) return true;
      if (start === 0) return false;
      start = lineStart(this.structure, start - 1);
    }
    return false;
  }

  /** A word without a colon, as while its author is still typing: the entries around it are read all the same. */
  #hideBareLine({ offset, reason }: Refusal): boolean {
    const isBare =
      /multiline key|expected ':'/.test(reason) || (this.structure[offset] === ':' && /separator/.test(reason));
    if (!isBare) return false;
    return this.#hideAbove(offset, 4, (start) => {
      const line = this.structure.slice(start, lineEnd(this.structure, start));
      const [, lead = '', text = ''] = /^([ \t]*(?:- +)*)([^\s#:{}[\]"',][^:{}[\]"']*?)\s*$/.exec(line) ?? [];
      if (text === '') return false;
      const from = start + lead.length;
      this.#report({ start: from, end: from + text.length }, traps.bareProblem(text), []);
      this.#overwrite(from, '#');
      return true;
    });
  }

  /** A quote that is never closed, or that closes before the end of its value. */
  #hideQuotes({ offset, reason }: Refusal): boolean {
    const reach = /end of the (?:stream|document) within/.test(reason) ? Number.POSITIVE_INFINITY : 20;
    return this.#hideAbove(offset, reach, (start) => {
      const line = this.structure.slice(start, lineEnd(this.structure, start));
      const [, lead, text = ''] = /^([ \t]*(?:- +)*(?:[\w.-]+:[ \t]+)?)(["'].*)$/.exec(line) ?? [];
      if (lead === undefined || isWellQuoted(this.structure, start + lead.length)) return false;
      const from = start + lead.length;
      const span = { start: from, end: trimEnd(this.structure, from, from + text.length) };
      const written = this.source.slice(span);
      this.#report(span, traps.openQuoteProblem(written), [traps.requoteFix(span, written)]);
      this.#overwrite(from, 'x');
      return true;
    });
  }

  /** Masks the glued key of the line that begins, or of its text that begins, at `from`. */
  hideGluedLine(from: number): boolean {
    const end = lineEnd(this.structure, from);
    if (end - from > MAX_LINE) return false;
    const [, lead = '', text = ''] = /^([ \t]*(?:- +)*)(.*?)(?:\s+#.*)?$/.exec(this.structure.slice(from, end)) ?? [];
    const glued = traps.gluedKey(text);
    if (!glued) return false;
    const start = from + lead.length;
    const span = { start, end: start + text.length };
    const colon = start + glued.key.length;
    this.#report(span, traps.glueProblem(glued.key, glued.value), [traps.glueFix(span, glued.key, glued.value)]);
    this.values.set(colon + 1, { start: colon + 1, end: span.end });
    this.#overwrite(colon + 1, ' '.repeat(span.end - colon - 1));
    return true;
  }

  /** `{ conductor: #6 AWG }`: the comment swallows the bracket. */
  #hideHash(at: number): boolean {
    const from = Math.max(this.structure.lastIndexOf('{', at - 1), 0);
    const match = /([\w-]+):[ \t]+(#[A-Za-z-]*\d[^,{}\r\n]*)[,}]/.exec(this.structure.slice(from, from + 2000));
    if (!match || this.structure[from] !== '{') return false;
    const [all, key = '', comment = ''] = match;
    const start = from + match.index + all.length - 1 - comment.length;
    const span = { start, end: trimEnd(this.structure, start, start + comment.length) };
    const written = this.source.slice(span);
    this.#report(span, traps.hashProblem(key, written), traps.hashFixes(span, written));
    this.#overwrite(start, 'x');
    return true;
  }

  /** `{ trip: 5 A }}`: one closing bracket too many. */
  #hideBracket({ offset, reason }: Refusal): boolean {
    const bracket = this.structure[offset];
    if ((bracket !== '}' && bracket !== ']') || !/bad indentation|separator/.test(reason)) return false;
    const message = `This "${bracket}" closes nothing. Remove it.`;
    const span = { start: offset, end: offset + 1 };
    this.#report(span, message, [traps.replace(span, '', 'mechanical', 'Remove the bracket')]);
    this.#overwrite(offset, ' ');
    return true;
  }

  /** A line that has its problem already and still cannot be read is left out. */
  #hideLine(at: number): boolean {
    const start = lineStart(this.structure, at);
    const end = lineEnd(this.structure, at);
    const first = skipBlanks(this.structure, start, end);
    if (this.structure[first] === '#' || first === end || !this.#problems.touches({ start, end })) return false;
    this.#overwrite(first, '#');
    return true;
  }

  /** Problems do not pile up on one place: what follows from a slip that is reported already is no cause of its own. */
  #report(span: Span, message: string, fixes: readonly TextFix[]): void {
    if (!this.#problems.touches(span)) this.#problems.put('document.syntax', span, message, fixes);
  }

  #overwrite(at: number, by: string): void {
    this.structure = this.structure.slice(0, at) + by + this.structure.slice(at + by.length);
  }

  /** The value (or, of an entry without a colon, the text) on whose line `at` lies, as its author sees it. */
  #entryAt(at: number): Entry {
    const from = lineStart(this.structure, at);
    const text = this.structure.slice(from, lineEnd(this.structure, at));
    const entry = findEntry(text, at - from);
    return { ...entry, start: from + entry.start, end: from + entry.end };
  }
}

/** A longer line was not typed by anyone; patterns are kept off it. */
const MAX_LINE = 2000;

interface Entry {
  readonly start: number;
  readonly end: number;
  readonly hasKey: boolean;
}

/** Walks along a line: an entry begins at its start, and in flow after `{`, `[` and `,`; its value after the first colon. */
function findEntry(line: string, target: number): Entry {
  let start = /^[ \t]*(?:- +)*/.exec(line)![0].length;
  let hasKey = false;
  let depth = 0;
  for (let at = start; at < target; at++) {
    const char = line[at]!;
    if (char === '"' || char === "'") at = endOfQuote(line, at);
    else if (!hasKey && char === ':' && isGap(line.charCodeAt(at + 1))) {
      hasKey = true;
      start = skipBlanks(line, at + 1, line.length);
    } else if (opensFlow(line, at, start)) {
      depth++;
      hasKey = false;
      start = skipBlanks(line, at + 1, line.length);
    } else if (depth > 0 && char === ',') {
      hasKey = false;
      start = skipBlanks(line, at + 1, line.length);
    }
  }
  return { start, end: endOfValue(line, start, depth > 0), hasKey };
}

function opensFlow(line: string, at: number, start: number): boolean {
  return at === start && (line[at] === '{' || line[at] === '[');
}

function endOfQuote(line: string, from: number): number {
  const before = from === 0 ? ' ' : line[from - 1]!;
  if (!/[\s,[{]/.test(before)) return from;
  const end = line.indexOf(line[from]!, from + 1);
  return end < 0 ? from : end;
}

function endOfValue(line: string, start: number, isFlow: boolean): number {
  const rest = line.slice(start);
  const match = (isFlow ? /\s#|[,}\]]/ : /\s#/).exec(rest);
  return trimEnd(line, start, match ? start + match.index : line.length);
}

/** Whether the quote at `start` closes at the end of a line or before a colon, perhaps some lines below. */
function isWellQuoted(text: string, start: number): boolean {
  const pattern =
    text[start] === '"'
      ? /"(?:[^"\\]|\\[\s\S])*"(?=[ \t]*(?:[\r\n:]|$|[ \t]#))/y
      : /'(?:[^']|'')*'(?=[ \t]*(?:[\r\n:]|$|[ \t]#))/y;
  pattern.lastIndex = start;
  return pattern.test(text);
}

function indentAt(text: string, start: number): number {
  let at = start;
  while (text.charCodeAt(at) === 32) at++;
  return at - start;
}

/** The start of the line after the one at `start`. */
function nextLine(text: string, start: number): number {
  const end = lineEnd(text, start);
  return text.startsWith('\r\n', end) ? end + 2 : end + 1;
}

function skipBlanks(text: string, from: number, end: number): number {
  let at = from;
  while (at < end && isBlank(text.charCodeAt(at))) at++;
  return at;
}

/** The indents that contain a tab: of the line at `first`, and of all lines that begin with one. */
function tabIndents(text: string, first: number): readonly Span[] {
  const spans: Span[] = [];
  for (const match of text.matchAll(/^[ \t]+(?=\S)/gm)) {
    const start = match.index;
    if (match[0].includes('\t') && (start === first || text[start] === '\t'))
      spans.push({ start, end: start + match[0].length });
  }
  return spans;
}
