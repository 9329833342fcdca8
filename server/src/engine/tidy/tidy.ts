import type { Document } from '../format/document.ts';
import { readDocument } from '../format/read.ts';
import { ScalarStyle } from '../syntax/tree.ts';
import type { TextEdit } from '../text/problem.ts';
import { tidyQuantity } from './quantity-text.ts';

/** Mending one thing may show another; what is not settled by then is left. */
const MOST_ROUNDS = 5;
const UNREADABLE = new Set(['document.not-text', 'document.too-large']);

/**
 * The text of a document with its units spelled as we write them and its mechanical mistakes mended. Comments, order and
 * every value stay. Tidying twice changes nothing more. A text that cannot be read stays as it is.
 */
export function tidy(document: Document): string {
  if (!document.ours || document.problems.some(({ check }) => UNREADABLE.has(check))) return document.source.text;
  let current = document;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const text = applied(current.source.text, [...mechanicalEdits(current), ...unitEdits(current)]);
    if (text === current.source.text) break;
    current = readDocument(document.path, text);
  }
  return current.source.text;
}

/** Of the ways to mend a problem the first that changes spelling only. */
function mechanicalEdits({ problems }: Document): readonly TextEdit[] {
  return problems.flatMap(({ fixes }) => fixes.find(({ kind }) => kind === 'mechanical')?.edits ?? []);
}

function unitEdits({ tree, source, quantities }: Document): readonly TextEdit[] {
  return quantities.flatMap((quantity, node) => {
    if (quantity === undefined) return [];
    const written = tree.scalar(node);
    const isQuoted = tree.style(node) === ScalarStyle.single || tree.style(node) === ScalarStyle.double;
    const start = tree.span(node).start + (isQuoted ? 1 : 0);
    // An escape or a fold reads otherwise than it is written.
    if (!source.text.startsWith(written, start)) return [];
    const newText = tidyQuantity(written, quantity.kind);
    return newText === written ? [] : [{ span: { start, end: start + written.length }, newText }];
  });
}

/** A text with edits made; of two that touch the same characters the first that was told. */
function applied(text: string, edits: readonly TextEdit[]): string {
  const taken: TextEdit[] = [];
  for (const edit of edits) {
    if (!taken.some(({ span }) => span.start <= edit.span.end && edit.span.start <= span.end)) taken.push(edit);
  }
  return taken
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((done, { span, newText }) => done.slice(0, span.start) + newText + done.slice(span.end), text);
}
