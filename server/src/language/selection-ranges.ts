import type { Position, SelectionRange } from 'vscode-languageserver';
import { type Document, NONE, type NodeIndex, type Span } from '../engine/index.ts';

/** From the value at each position outwards: value, entry, group, and at last the whole text. */
export function selectionRanges(document: Document, positions: readonly Position[]): SelectionRange[] {
  return positions.map((position) => selectionAt(document, position));
}

function selectionAt({ tree, source }: Document, position: Position): SelectionRange {
  const whole = { start: 0, end: source.length };
  let selection: SelectionRange = { range: source.rangeOf(whole) };
  let last: Span = whole;
  const offset = source.offsetAt(position);
  for (const span of spansAround(tree, tree.nodeAt(offset), offset)) {
    if (span.start === last.start && span.end === last.end) continue;
    selection = { range: source.rangeOf(span), parent: selection };
    last = span;
  }
  return selection;
}

/** What surrounds an offset, the widest first. */
function spansAround(tree: Document['tree'], innermost: NodeIndex, offset: number): readonly Span[] {
  const spans: Span[] = [];
  for (let node = innermost; node !== NONE && node !== tree.root; node = tree.parent(node)) {
    const value = tree.span(node);
    const key = tree.keySpan(node);
    const narrow = tree.hasKey(node) && offset <= key.end ? key : value;
    spans.push(narrow, { start: key.start, end: Math.max(key.end, value.end) });
  }
  const holding = spans.filter(({ start, end }) => start <= offset && offset <= end);
  return holding.reverse();
}
