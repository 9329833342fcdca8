import type { SourceText } from '../text/source.ts';
import type { Span } from '../text/span.ts';
import { ROOT_PLACE, TreeBuilder } from './builder.ts';
import { LIMITS } from './limits.ts';
import type { ProblemList } from './problems.ts';
import { isBreak, lineEnd, lineStart, skipSpace, skipToBracket, trimEnd } from './scan.ts';
import * as traps from './traps.ts';
import { NONE, type NodeIndex, NodeKind, ScalarStyle, type SyntaxTree } from './tree.ts';

/** Where a node's anchor (without its `&`) and tag stand; -1 means absent. */
export interface Properties {
  readonly anchorStart: number;
  readonly anchorEnd: number;
  readonly tagStart: number;
  readonly tagEnd: number;
}

/** A text as it is parsed: the source, and the same text with known problems masked so that a parser gets past them. */
export interface Masked {
  readonly source: SourceText;
  /** As long as the source, so that all offsets hold in both. */
  readonly structure: string;
  /** Values that a mask made absent, by the offset right after their colon. */
  readonly values: ReadonlyMap<number, Span>;
}

/** An open collection, and the place of its next child. */
interface Frame {
  parent: NodeIndex;
  previous: NodeIndex;
  keyStart: number;
  keyEnd: number;
  key: string;
  readonly isMapping: boolean;
  readonly isFlow: boolean;
  readonly anchor: Anchor | undefined;
  keys: Map<string, NodeIndex> | undefined;
}

interface Anchor {
  readonly node: NodeIndex;
  /** The node after its subtree; `NONE` as long as the subtree is open. */
  end: NodeIndex;
}

/** Enough of the line of a `|` or `>` to see what it was meant to be. */
const MAX_HEADER = 80;

/** Up to here a search through the siblings is cheaper than a map of their keys. */
const SMALL_MAPPING = 12;

/**
 * Turns a parser's stream of nodes into the table, refusing on the way what the format does not take. Both parsers feed
 * it, so both agree on spans, anchors, duplicate keys and limits by construction.
 */
export class TreeWriter {
  readonly #masked: Masked;
  readonly #text: string;
  readonly #problems: ProblemList;
  readonly #builder: TreeBuilder;
  readonly #frames: Frame[] = [];
  readonly #anchors = new Map<string, Anchor>();
  readonly #hasTabs: boolean;
  readonly #hasExplicitKeys: boolean;
  #top: Frame | undefined;
  /** End of what was read last. */
  #cursor = 0;
  /** Collections that were opened inside something refused and are passed over. */
  #skipped = 0;
  #skipsNextValue = false;
  #isStopped = false;
  /** Where a line was read as a text that is a key glued to its value; the text is to be masked and parsed again. */
  gluedLine: number | undefined;

  constructor(masked: Masked, problems: ProblemList) {
    this.#masked = masked;
    this.#text = masked.structure;
    this.#problems = problems;
    // A block file has a node for some 25 characters, a dense flow file for about 10.
    this.#builder = new TreeBuilder(masked.structure.length >> 4);
    this.#hasTabs = masked.structure.includes('\t');
    this.#hasExplicitKeys = /\?\s/.test(masked.structure);
  }

  /** True once a limit is passed; the rest of the text is not worth reading. */
  get isStopped(): boolean {
    return this.#isStopped;
  }

  get cursor(): number {
    return this.#cursor;
  }

  finish(): SyntaxTree {
    while (this.#top) this.#leave(this.#cursor);
    return this.#builder.finish(this.#masked.source);
  }

  open(kind: NodeKind, isFlow: boolean, start: number, props: Properties): void {
    if (this.#skips()) {
      this.#skipped++;
      return;
    }
    if (this.#isAtKey()) this.#refuseCollectionAsKey(start);
    else if (this.#frames.length >= LIMITS.depth) this.stopAtDepth(start);
    else this.#enter(kind, isFlow, start, props);
  }

  #enter(kind: NodeKind, isFlow: boolean, start: number, props: Properties): void {
    this.#checkTabs(start);
    const node = this.#append(kind, ScalarStyle.plain, start, start, '');
    if (node === NONE) return;
    const anchor = this.#readProperties(props, node);
    this.#top = {
      parent: node,
      previous: NONE,
      keyStart: NONE,
      keyEnd: NONE,
      key: '',
      isMapping: kind === NodeKind.mapping,
      isFlow,
      anchor,
      keys: undefined,
    };
    this.#frames.push(this.#top);
    const opensWithBracket = isFlow && (this.#text[start] === '{' || this.#text[start] === '[');
    this.#cursor = opensWithBracket ? start + 1 : start;
  }

  close(): void {
    if (this.#skipped > 0) this.#closeSkipped();
    else if (this.#top) this.#leave(this.#top.isFlow ? this.#flowEnd(this.#top) : this.#cursor);
  }

  #leave(end: number): void {
    const frame = this.#frames.pop();
    if (!frame) return;
    if (frame.anchor) frame.anchor.end = this.#builder.size;
    this.#builder.close(frame.parent, end);
    this.#cursor = end;
    this.#top = this.#frames.at(-1);
    this.#finishPair();
  }

  /** A pair inside `[ ]` is a mapping without brackets of its own. */
  #flowEnd(frame: Frame): number {
    const opening = this.#text[this.#builder.startOf(frame.parent)];
    const bracket = opening === '{' ? '}' : opening === '[' ? ']' : '';
    const at = skipToBracket(this.#text, this.#cursor);
    return bracket !== '' && this.#text[at] === bracket ? at + 1 : this.#cursor;
  }

  #closeSkipped(): void {
    this.#skipped--;
    const at = skipToBracket(this.#text, this.#cursor);
    if (this.#text[at] === '}' || this.#text[at] === ']') this.#cursor = at + 1;
  }

  scalar(style: ScalarStyle, start: number, end: number, text: string, props: Properties): void {
    if (this.#skips()) this.#cursor = end;
    else if (this.#isAtKey()) this.#readKey(start, end, text, style, props);
    else this.#readValue(style, start, end, text, props);
  }

  #readValue(style: ScalarStyle, start: number, end: number, text: string, props: Properties): void {
    if (this.#joinsItem(style, start, end, text)) return;
    if (style === ScalarStyle.plain && text.indexOf(':') > 0) this.#findGluedLine(start, end);
    this.#checkTabs(start);
    const node = this.#append(NodeKind.scalar, style, start, end, text);
    this.#cursor = end;
    if (node !== NONE) this.#readScalarProperties(node, style, end, props);
    this.#finishPair();
  }

  /** A block scalar, of which the parsers name the content only: its span begins at the `|` or `>`. */
  blockScalar(style: ScalarStyle, contentEnd: number, text: string, props: Properties): void {
    const before = Math.max(this.#positionOfAbsent(), props.anchorEnd, props.tagEnd);
    const start = skipSpace(this.#text, before);
    const end = trimEnd(this.#text, start + 1, Math.max(contentEnd, start + 1));
    const header = this.#source(start, Math.min(lineEnd(this.#text, start), start + MAX_HEADER));
    if (text.trim() === '' && /^[>|]\d/.test(header) && !this.#skips()) this.#restoreHeader(start, header);
    else this.scalar(style, start, end, text, props);
  }

  /** `trip: >5` begins an empty text that is to be indented by five spaces. */
  #restoreHeader(start: number, header: string): void {
    const written = header.replace(/\s+(?:#.*)?$/, '');
    const span = { start, end: start + written.length };
    this.#problems.put('document.syntax', span, traps.indicatorProblem(written), traps.indicatorFixes(span, written));
    this.#readValue(ScalarStyle.plain, span.start, span.end, written, NO_PROPERTIES);
  }

  /** `tap:6` on a line of its own is a text where a mapping is meant. */
  #findGluedLine(start: number, end: number): void {
    const frame = this.#top;
    const isBlockValue = frame === undefined || (frame.isMapping && !frame.isFlow);
    if (!isBlockValue || this.#source(lineStart(this.#text, start), start).trim() !== '') return;
    const line = this.#source(start, Math.min(end, lineEnd(this.#text, start)));
    if (traps.gluedKey(line)) this.gluedLine ??= start;
  }

  /** `[1,850 V]`: two items by YAML, one quantity by its author. */
  #joinsItem(style: ScalarStyle, start: number, end: number, text: string): boolean {
    const frame = this.#top;
    if (!frame?.isFlow || frame.isMapping || style !== ScalarStyle.plain || frame.previous === NONE) return false;
    if (this.#text.charCodeAt(start - 1) !== 44 || !this.#builder.isPlain(frame.previous)) return false;
    const from = this.#builder.startOf(frame.previous);
    const before = this.#source(from, start - 1);
    if (!traps.isSplitQuantity(before, text)) return false;
    this.#joinToPrevious(from, end, frame.previous, 'number');
    return true;
  }

  /** `key:`, `- ` or `{ key }` with nothing behind it; also the root of an empty document. */
  absent(props: Properties): void {
    if (this.#skips()) return;
    const frame = this.#top;
    const mark = this.#positionOfAbsent();
    const at = Math.max(mark, props.anchorEnd, props.tagEnd);
    if (this.#isAtKey()) this.#readKey(at, at, '', ScalarStyle.plain, props);
    else if (!frame) this.#readAbsentRoot(at, props);
    else if (this.#masked.values.has(at)) this.#readMaskedValue(at);
    else if (frame.isMapping && frame.isFlow && mark === frame.keyEnd) this.#readKeyAlone(frame, props);
    else {
      this.#findValueInComment(at);
      this.#readValue(ScalarStyle.plain, at, at, '', props);
    }
  }

  #readAbsentRoot(at: number, props: Properties): void {
    if (props.anchorEnd >= 0 || props.tagEnd >= 0) this.#readValue(ScalarStyle.plain, at, at, '', props);
  }

  #readMaskedValue(at: number): void {
    const span = this.#masked.values.get(at)!;
    this.#append(NodeKind.scalar, ScalarStyle.plain, span.start, span.end, this.#masked.source.slice(span));
    this.#cursor = span.end;
    this.#finishPair();
  }

  #positionOfAbsent(): number {
    const frame = this.#top;
    if (!frame) return this.#cursor;
    if (this.#isAtKey()) return skipToBracket(this.#text, this.#cursor);
    const from = frame.keyStart >= 0 ? frame.keyEnd : this.#cursor;
    const at = skipSpace(this.#text, from);
    return this.#text[at] === (frame.isMapping ? ':' : '-') ? at + 1 : from;
  }

  /** A key in `{ }` without a colon: what YAML makes of a comma in a value, or of a colon without a space. */
  #readKeyAlone(frame: Frame, props: Properties): void {
    const { previous, keyStart, keyEnd } = frame;
    const written = this.#source(keyStart, keyEnd);
    const glued = traps.gluedKey(written);
    if (glued) this.#splitKey(frame, glued.key, glued.value);
    else if (!this.#joinsPair(frame, previous, written)) {
      this.#noteKey(frame);
      this.#readValue(ScalarStyle.plain, keyEnd, keyEnd, '', props);
    }
  }

  #splitKey(frame: Frame, key: string, value: string): void {
    const span = { start: frame.keyStart, end: frame.keyEnd };
    this.#problems.put('document.syntax', span, traps.glueProblem(key, value), [traps.glueFix(span, key, value)]);
    frame.key = key;
    frame.keyEnd = frame.keyStart + key.length;
    this.#noteKey(frame);
    this.#readValue(ScalarStyle.plain, span.end - value.length, span.end, value, NO_PROPERTIES);
  }

  #joinsPair(frame: Frame, previous: NodeIndex, written: string): boolean {
    if (previous === NONE || !this.#builder.isPlain(previous)) return false;
    const from = this.#builder.startOf(previous);
    const before = this.#source(from, this.#builder.endOf(previous));
    const gap = this.#source(this.#builder.endOf(previous), frame.keyStart);
    const splitsNumber = gap === ',' && traps.isSplitNumber(before, written);
    if (!splitsNumber && (traps.isKeyWord(written) || before === '' || !/^,[ \t]*$/.test(gap))) return false;
    this.#joinToPrevious(from, frame.keyEnd, previous, splitsNumber ? 'number' : 'text');
    return true;
  }

  #joinToPrevious(start: number, end: number, previous: NodeIndex, what: 'number' | 'text'): void {
    const span = { start, end };
    const written = this.#source(start, end);
    if (what === 'number') {
      const fixes = traps.commaFixes(span, written);
      this.#problems.put('units.thousands-separator', span, traps.commaProblem(written), fixes);
    } else {
      this.#problems.put('document.syntax', span, traps.listProblem(written), [traps.quoteFix(span, written)]);
    }
    this.#builder.rewrite(previous, start, end, written);
    this.#cursor = end;
    this.#finishPair();
  }

  /** `conductor: #6 AWG` has no value: a `#` after a space begins a comment. */
  #findValueInComment(at: number): void {
    const end = lineEnd(this.#text, at);
    const comment = /^[ \t]+(#[A-Za-z-]*\d.*)$/.exec(this.#text.slice(at, end))?.[1];
    if (comment === undefined || !this.#top?.isMapping) return;
    const start = end - comment.length;
    const span = { start, end: trimEnd(this.#text, start, end) };
    const written = this.#masked.source.slice(span);
    const message = traps.hashProblem(this.#top.key, written);
    this.#problems.put('document.syntax', span, message, traps.hashFixes(span, written));
  }

  alias(start: number, end: number): void {
    if (this.#skips()) return;
    const span = { start, end };
    this.#cursor = end;
    if (this.#isAtKey()) this.#refuseKey(span, 'An alias cannot stand for a key here. Write the key out.');
    else this.#readAlias(span, this.#masked.source.slice({ start: start + 1, end }));
  }

  #readAlias(span: Span, name: string): void {
    const anchor = this.#anchors.get(name);
    if (!anchor) this.#refuseAlias(span, name);
    else if (anchor.end === NONE) this.#refuseRecursion(span, name);
    else this.#copy(anchor.node, anchor.end, span);
    this.#finishPair();
  }

  #refuseAlias(span: Span, name: string): void {
    const message = `"*${name}" refers to an anchor "&${name}", which is not set above. Write the value out.`;
    const fixes = traps.indicatorFixes(span, `*${name}`).filter((fix) => fix.kind === 'offer');
    this.#problems.put('document.syntax', span, message, fixes);
    this.#append(NodeKind.scalar, ScalarStyle.plain, span.start, span.end, `*${name}`);
  }

  #refuseRecursion(span: Span, name: string): void {
    const message = `"*${name}" stands inside the very entry that it refers to, so it would never end. Write the value out.`;
    this.#problems.put('document.alias-limit', span, message);
    this.#append(NodeKind.scalar, ScalarStyle.plain, span.start, span.end, `*${name}`);
  }

  #copy(from: NodeIndex, until: NodeIndex, span: Span): void {
    const tooMany = this.#builder.size + (until - from) > LIMITS.nodes;
    const tooDeep = !tooMany && this.#frames.length + this.#builder.heightOf(from, until) > LIMITS.depth;
    if (tooMany || tooDeep) {
      const limit = tooMany ? `${LIMITS.nodes} entries` : `${LIMITS.depth} levels`;
      const message = `With this alias written out, the document would have more than ${limit}. Write out what is needed, without aliases of aliases.`;
      this.#stop('document.alias-limit', span, message);
      return;
    }
    const root = this.#builder.appendCopy(from, until, span, this.#top ?? ROOT_PLACE);
    if (this.#top) this.#top.previous = root;
  }

  stopAtDepth(at: number): void {
    const span = { start: at, end: Math.min(at + 1, this.#text.length) };
    this.#stop(
      'document.too-large',
      span,
      `Entries are nested more than ${LIMITS.depth} levels deep here. No document of ours needs that; remove the extra levels.`,
    );
  }

  refuseSecondDocument(span: Span): void {
    const message = 'A second document begins here; a file holds one. Move it to a file of its own.';
    this.#problems.put('document.syntax', span, message);
    this.#isStopped = true;
  }

  #stop(check: string, span: Span, message: string): void {
    this.#problems.put(check, span, message);
    this.#isStopped = true;
  }

  #append(kind: NodeKind, style: ScalarStyle, start: number, end: number, text: string): NodeIndex {
    if (this.#builder.isFull) {
      this.#stop(
        'document.too-large',
        { start, end: Math.min(start + 1, this.#text.length) },
        `This document has more than ${LIMITS.nodes} entries. Split it.`,
      );
      return NONE;
    }
    const frame = this.#top;
    const node = this.#builder.append(kind, style, start, end, text, frame ?? ROOT_PLACE);
    if (frame) frame.previous = node;
    return node;
  }

  // Keys

  #isAtKey(): boolean {
    const frame = this.#top;
    return frame?.isMapping === true && frame.keyStart < 0;
  }

  /** The pair is complete: a key comes next. */
  #finishPair(): void {
    const frame = this.#top;
    if (!frame?.isMapping) return;
    frame.keyStart = NONE;
  }

  #readKey(start: number, end: number, text: string, style: ScalarStyle, props: Properties): void {
    const frame = this.#top!;
    frame.keyStart = start;
    frame.keyEnd = end;
    frame.key = text;
    this.#cursor = end;
    if (props.tagStart >= 0) this.#refuseTag(props);
    if (text === '<<' && style === ScalarStyle.plain) this.#refuseMerge({ start, end });
    else if (start === end) this.#refuseMissingKey(start);
    else if (!frame.isFlow || this.#hasColon(end)) this.#noteKey(frame);
    if (this.#hasExplicitKeys) this.#checkExplicitKey(start);
  }

  /** A key alone in `{ }` may yet turn out to be half of a value. */
  #hasColon(keyEnd: number): boolean {
    return this.#text[skipSpace(this.#text, keyEnd)] === ':';
  }

  #refuseMissingKey(at: number): void {
    const end = Math.min(at + 1, this.#text.length);
    this.#refuseKey({ start: at, end }, 'A key is missing before this colon.');
  }

  #refuseMerge(span: Span): void {
    this.#refuseKey(
      span,
      'Merge keys ("<<") are not taken, since they hide where a value comes from. Write the entries out.',
    );
  }

  /** Refuses a key together with the value that belongs to it. */
  #refuseKey(span: Span, message: string): void {
    this.#problems.put('document.syntax', span, message);
    const frame = this.#top!;
    frame.keyStart = span.start;
    frame.keyEnd = span.end;
    this.#skipsNextValue = true;
  }

  #refuseCollectionAsKey(start: number): void {
    const first = skipBackToQuestion(this.#text, start);
    this.#refuseKey({ start: first, end: start + 1 }, 'A key must be a plain word, not a list or a mapping.');
    this.#skipped = 1;
  }

  #checkExplicitKey(start: number): void {
    const at = skipBackToQuestion(this.#text, start);
    if (at === start) return;
    const message = 'The "?" that marks a key is not taken. Write "key: value".';
    this.#problems.put('document.syntax', { start: at, end: at + 1 }, message);
  }

  #noteKey(frame: Frame): void {
    const first = this.#firstUnder(frame);
    if (first === NONE) return;
    const { source } = this.#masked;
    const line = source.positionAt(this.#builder.keyStartOf(first)).line + 1;
    const message = `The key "${frame.key}" is given twice; the first is on line ${line}. Remove or rename one of them.`;
    this.#problems.put('document.duplicate-key', { start: frame.keyStart, end: frame.keyEnd }, message);
  }

  #firstUnder(frame: Frame): NodeIndex {
    if (this.#builder.childCountOf(frame.parent) < SMALL_MAPPING) return this.#builder.childOf(frame.parent, frame.key);
    frame.keys ??= this.#builder.childrenByKey(frame.parent);
    const first = frame.keys.get(frame.key);
    // The node that this key will get, unless a limit stops the writer.
    if (first === undefined) frame.keys.set(frame.key, this.#builder.size);
    return first ?? NONE;
  }

  // Properties

  #readScalarProperties(node: NodeIndex, style: ScalarStyle, end: number, props: Properties): void {
    if (props.anchorStart < 0 && props.tagStart < 0) return;
    if (props.anchorStart >= 0 && style === ScalarStyle.plain && this.#swallowsNumber(props)) {
      this.#restoreSwallowed(node, Math.max(end, props.anchorEnd), props.anchorStart - 1);
      return;
    }
    const anchor = this.#readProperties(props, node);
    if (anchor) anchor.end = this.#builder.size;
  }

  /** `&5 m` names an anchor `5` and leaves `m`. */
  #swallowsNumber(props: Properties): boolean {
    return /^[-+.]?\d/.test(this.#source(props.anchorStart, props.anchorEnd));
  }

  #restoreSwallowed(node: NodeIndex, end: number, start: number): void {
    const span = { start, end };
    const written = this.#masked.source.slice(span);
    this.#problems.put('document.syntax', span, traps.anchorProblem(written), traps.indicatorFixes(span, written));
    this.#builder.rewrite(node, start, end, written);
  }

  #readProperties(props: Properties, node: NodeIndex): Anchor | undefined {
    if (props.tagStart >= 0) this.#refuseTag(props);
    if (props.anchorStart < 0) return undefined;
    const anchor = { node, end: NONE };
    this.#anchors.set(this.#source(props.anchorStart, props.anchorEnd), anchor);
    if (this.#anchors.size > LIMITS.anchors) {
      const message = `This document sets more than ${LIMITS.anchors} anchors. Write the values out.`;
      this.#stop('document.alias-limit', { start: props.anchorStart - 1, end: props.anchorEnd }, message);
    }
    return anchor;
  }

  #refuseTag(props: Properties): void {
    const span = { start: props.tagStart, end: props.tagEnd };
    const message = `Tags such as "${this.#source(span.start, span.end)}" are not taken. Remove it; quote the value if it is a text.`;
    this.#problems.put('document.syntax', span, message);
  }

  // Tabs and text

  #checkTabs(start: number): void {
    if (!this.#hasTabs) return;
    let at = start;
    while (at > 0 && isTabOrSpace(this.#text.charCodeAt(at - 1))) at--;
    const isIndent = at === 0 || isBreak(this.#text.charCodeAt(at - 1));
    const tab = this.#source(at, start).indexOf('\t');
    if (isIndent || tab < 0) return;
    const span = { start: at + tab, end: at + this.#source(at, start).lastIndexOf('\t') + 1 };
    const fix = traps.replace({ start: at, end: start }, ' ', 'mechanical', 'Replace the tab by a space');
    this.#problems.put('document.syntax', span, traps.TAB_BEFORE_VALUE, [fix]);
  }

  #source(start: number, end: number): string {
    return this.#masked.source.text.slice(start, end);
  }

  // Passing over what belongs to something refused

  #skips(): boolean {
    if (this.#skipped > 0 || this.#isStopped) return true;
    if (!this.#skipsNextValue) return false;
    this.#skipsNextValue = false;
    this.#finishPair();
    return true;
  }
}

export const NO_PROPERTIES: Properties = { anchorStart: -1, anchorEnd: -1, tagStart: -1, tagEnd: -1 };

function isTabOrSpace(code: number): boolean {
  return code === 9 || code === 32;
}

/** The `?` of an explicit key that begins at `start`, or `start` itself. */
function skipBackToQuestion(text: string, start: number): number {
  let at = start;
  while (at > 0 && (isTabOrSpace(text.charCodeAt(at - 1)) || isBreak(text.charCodeAt(at - 1)))) at--;
  return at < start && text[at - 1] === '?' ? at - 1 : start;
}
