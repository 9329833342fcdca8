import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isPair,
  isScalar,
  type ParsedNode,
  parseAllDocuments,
  type Scalar,
  type YAMLError,
} from 'yaml';
import type { Span } from '../text/span.ts';
import { sentenceFor } from './messages.ts';
import type { ProblemList } from './problems.ts';
import { isBreak, lineEnd, lineStart, startOfSecond, trimEnd } from './scan.ts';
import { NodeKind, ScalarStyle } from './tree.ts';
import { type Masked, NO_PROPERTIES, type Properties, type TreeWriter } from './writer.ts';

/** Reads any text, recovering as far as it can; slower than the fast parser by a factor of ten. */
export type GeneralParser = (masked: Masked, writer: TreeWriter, problems: ProblemList) => void;

/**
 * The general parser, by `yaml`. The failsafe schema leaves scalars as they are written; the library's own search for
 * duplicate keys is quadratic, and ours is done by the writer.
 */
export const readGenerally: GeneralParser = (masked, writer, problems) => {
  const [first, second] = parseAllDocuments(masked.structure, {
    schema: 'failsafe',
    uniqueKeys: false,
    prettyErrors: false,
    logLevel: 'silent',
  }) as Document.Parsed[];
  if (!first) return;
  new Walker(masked, writer).walk(first.contents as Node);
  if (second) writer.refuseSecondDocument(startOfSecond(masked.structure, first.range[1]));
  reportErrors(first.errors, masked.structure, problems);
};

type Node = ParsedNode | Scalar | null;

const STYLES: Readonly<Record<string, ScalarStyle>> = {
  PLAIN: ScalarStyle.plain,
  QUOTE_SINGLE: ScalarStyle.single,
  QUOTE_DOUBLE: ScalarStyle.double,
  BLOCK_LITERAL: ScalarStyle.literal,
  BLOCK_FOLDED: ScalarStyle.folded,
};

class Walker {
  readonly #masked: Masked;
  readonly #writer: TreeWriter;

  constructor(masked: Masked, writer: TreeWriter) {
    this.#masked = masked;
    this.#writer = writer;
  }

  walk(node: Node): void {
    if (this.#writer.isStopped) return;
    if (!node?.range) this.#writer.absent(NO_PROPERTIES);
    else if (isAlias(node)) this.#writer.alias(node.range[0], node.range[1]);
    else if (isCollection(node)) this.#walkCollection(node as Collection);
    else if (isScalar(node)) this.#walkScalar(node);
  }

  #walkCollection(node: Collection): void {
    const [start] = node.range;
    const kind = isMap(node) ? NodeKind.mapping : NodeKind.sequence;
    this.#writer.open(kind, node.flow === true, start, this.#propertiesOf(node, start));
    for (const item of node.items) {
      if (isPair(item)) {
        this.walk(item.key as Node);
        this.walk(item.value as Node);
      } else this.walk(item as Node);
    }
    this.#writer.close();
  }

  #walkScalar(node: Scalar): void {
    const [start, end] = node.range!;
    const style = STYLES[node.type ?? 'PLAIN'] ?? ScalarStyle.plain;
    const props = this.#propertiesOf(node, start);
    const value = this.#valueOf(node, style, start, end);
    if (start === end) this.#writer.absent(props);
    else if (style === ScalarStyle.literal || style === ScalarStyle.folded) {
      this.#writer.blockScalar(style, end, value, props);
    } else this.#writer.scalar(style, start, end, value, props);
  }

  /** A plain scalar on one line comes from the source, since its structure may be masked. */
  #valueOf(node: Scalar, style: ScalarStyle, start: number, end: number): string {
    const written = this.#masked.source.slice({ start, end });
    return style === ScalarStyle.plain && !/[\r\n]/.test(written) ? written : String(node.value ?? '');
  }

  /** The library names anchors and tags without their places; they stand between what was read last and the node. */
  #propertiesOf(node: { anchor?: string; tag?: string }, start: number): Properties {
    if (node.anchor === undefined && node.tag === undefined) return NO_PROPERTIES;
    const from = this.#writer.cursor;
    const before = this.#masked.structure.slice(from, start);
    const anchor = node.anchor === undefined ? -1 : before.lastIndexOf(`&${node.anchor}`);
    const tag = node.tag === undefined ? null : /(?:^|\s)(![^\s,[\]{}]*)/.exec(before);
    const anchorStart = anchor < 0 ? -1 : from + anchor + 1;
    const tagStart = tag ? from + tag.index + tag[0].length - tag[1]!.length : -1;
    return {
      anchorStart,
      anchorEnd: anchorStart < 0 ? -1 : anchorStart + node.anchor!.length,
      tagStart,
      tagEnd: tag ? tagStart + tag[1]!.length : -1,
    };
  }
}

type Collection = { range: [number, number, number]; items: unknown[]; flow?: boolean; anchor?: string; tag?: string };

/** One problem a line: what the parser meets afterwards on the same line follows from it. */
function reportErrors(errors: readonly YAMLError[], structure: string, problems: ProblemList): void {
  const inOrder = [...errors].sort((a, b) => a.pos[0] - b.pos[0]);
  for (const error of inOrder.slice(0, MAX_ERRORS)) {
    const span = spanOf(error, structure);
    const line = { start: lineStart(structure, span.start), end: lineEnd(structure, span.start) };
    if (!problems.touches(line)) problems.put('document.syntax', span, sentenceFor(error.message, error.code));
  }
}

/** A text that goes wrong goes wrong in many places after; more than these tell nobody anything. */
const MAX_ERRORS = 5;

/** The error's characters, within one line and without the white space around them. */
function spanOf(error: YAMLError, structure: string): Span {
  const bracket = /end with a [}\]]/.test(error.message) ? openBracket(structure, error.pos[0]) : -1;
  if (bracket >= 0) return { start: bracket, end: bracket + 1 };
  let start = Math.min(error.pos[0], Math.max(structure.length - 1, 0));
  while (start > 0 && isBreak(structure.charCodeAt(start))) start--;
  const end = Math.min(Math.max(error.pos[1], start + 1), lineEnd(structure, start + 1), structure.length);
  return { start, end: Math.max(trimEnd(structure, start, end), Math.min(start + 1, structure.length)) };
}

/** The nearest bracket before `from` that is not closed by there; brackets in quotes are rare enough to count. */
function openBracket(structure: string, from: number): number {
  let closed = 0;
  for (let at = from - 1; at >= 0 && at > from - BRACKET_REACH; at--) {
    const char = structure[at];
    if (char === '}' || char === ']') closed++;
    else if ((char === '{' || char === '[') && closed-- === 0) return at;
  }
  return -1;
}

/** How far back an open bracket is looked for, in characters. */
const BRACKET_REACH = 10_000;
