import type { Range, SourceText, Span } from '../../engine/index.ts';
import { visible } from '../escape.ts';

export interface SarifContext {
  readonly nameOf: (path: string) => string;
  /** Place of each check among the rules. */
  readonly ruleIndex: ReadonlyMap<string, number>;
}

/**
 * Text of a message. In SARIF `[text](target)` is a link and `{0}` an argument; what a document says is neither. Control
 * characters are seen and do nothing.
 */
export function messageOf(text: string): { readonly text: string } {
  const plain = visible(text)
    .replace(/\[(?=[^\]]*\]\()/g, '\\[')
    .replace(/\{(\d+)\}/g, '{{$1}}');
  return { text: plain };
}

export function artifactOf(path: string, { nameOf }: SarifContext) {
  const uri = nameOf(path).split('/').map(encodeName).join('/');
  return { uri, uriBaseId: '%SRCROOT%' };
}

/** A file may be named in characters that are no text. */
function encodeName(name: string): string {
  return encodeURIComponent(name.replace(/[\uD800-\uDFFF]/gu, '\uFFFD'));
}

/** Lines and columns count from 1 in SARIF. */
export function regionOf({ start, end }: Range) {
  return {
    startLine: start.line + 1,
    startColumn: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}

/** Where the text is at hand its lines, else the characters. */
export function regionOfSpan(span: Span, source: SourceText | undefined) {
  return source === undefined
    ? { charOffset: span.start, charLength: span.end - span.start }
    : regionOf(source.rangeOf(span));
}
