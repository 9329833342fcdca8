import type { FoldingRange } from 'vscode-languageserver';
import type { Document } from '../engine/index.ts';

/** Every entry that spans lines can be folded. */
export function foldingRanges({ tree, source }: Document): FoldingRange[] {
  const ranges: FoldingRange[] = [];
  for (let node = 1; node < tree.size; node++) {
    if (tree.isScalar(node) || !tree.hasKey(node)) continue;
    const startLine = source.positionAt(tree.keySpan(node).start).line;
    const endLine = source.positionAt(lastOffset(source.text, tree.span(node).end)).line;
    if (endLine > startLine) ranges.push({ startLine, endLine });
  }
  return ranges;
}

/** A block may end with the blank lines behind it; they stay in sight. */
function lastOffset(text: string, end: number): number {
  let at = end;
  while (at > 0 && /\s/.test(text.charAt(at - 1))) at--;
  return at;
}
