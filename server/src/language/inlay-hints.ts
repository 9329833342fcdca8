import type { InlayHint } from 'vscode-languageserver';
import { type CheckedFile, NONE, type NodeIndex, type Range } from '../engine/index.ts';
import { hintTexts } from './hint-values.ts';
import { inOtherSystem } from './other-units.ts';

/**
 * Beside entries in a range: what was computed, else the reading in the other system of units. One a line, the first that
 * has something to say, with computed values before conversions: hints that crowd a line hide it.
 */
export function inlayHints(file: CheckedFile, range: Range): InlayHint[] {
  const hints = new Map<number, InlayHint>();
  for (const hint of [...computedHints(file, range), ...unitHints(file, range)]) {
    if (!hints.has(hint.position.line)) hints.set(hint.position.line, hint);
  }
  return [...hints.values()].sort((a, b) => a.position.line - b.position.line);
}

function computedHints(file: CheckedFile, range: Range): readonly InlayHint[] {
  const { tree } = file.document;
  const placed = hintTexts(file).map((text) => ({ ...text, node: tree.find(text.key) }));
  return placed
    .filter(({ node }) => node !== NONE && tree.isScalar(node) && isWithin(file, node, range))
    .sort((a, b) => tree.span(a.node).start - tree.span(b.node).start)
    .map(({ node, label, tooltip }) => hintBehind(file, node, label, tooltip));
}

function unitHints(file: CheckedFile, range: Range): readonly InlayHint[] {
  const { tree, shapes, quantities } = file.document;
  const hints: InlayHint[] = [];
  quantities.forEach((quantity, node) => {
    if (quantity === undefined || !isWithin(file, node, range)) return;
    const other = inOtherSystem(quantity, shapes[node]);
    if (other !== undefined) hints.push(hintBehind(file, node, other, `${tree.scalar(node)} in the other units`));
  });
  return hints;
}

function isWithin({ document }: CheckedFile, node: NodeIndex, { start, end }: Range): boolean {
  const { line } = document.source.positionAt(document.tree.span(node).end);
  return line >= start.line && line <= end.line;
}

function hintBehind({ document }: CheckedFile, node: NodeIndex, label: string, tooltip: string): InlayHint {
  const position = document.source.positionAt(document.tree.span(node).end);
  return { position, label, tooltip, paddingLeft: true };
}
