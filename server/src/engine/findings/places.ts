import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex, type SyntaxTree, stepsOf } from '../syntax/tree.ts';
import type { Span } from '../text/span.ts';
import type { Place } from './raw.ts';

/** The place of a node: a scalar's value, a collection's key. */
export function placeOfNode(document: Document, node: NodeIndex): Place {
  return { document, key: document.tree.path(node), span: spanOf(document.tree, node) };
}

/** The place of a dotted key, or where it should be: the closest entry above that is there. */
export function placeOfKey(document: Document, key: string): Place {
  const { tree } = document;
  let node = tree.root;
  for (const step of stepsOf(key)) {
    const next = typeof step === 'number' ? tree.item(node, step) : tree.child(node, step);
    if (next === NONE) break;
    node = next;
  }
  if (node === NONE || node === tree.root) return { document, key, span: firstLine(document) };
  return { document, key, span: spanOf(tree, node) };
}

/** The `document` entry, where what concerns the whole file is said; the first characters of a text without one. */
export function placeOfDocument(document: Document): Place {
  return { document, key: '', span: firstLine(document) };
}

function firstLine({ tree, source }: Document): Span {
  const node = tree.child(tree.root, 'document');
  if (node !== NONE) return { start: tree.keySpan(node).start, end: tree.span(node).end };
  const first = tree.firstChild(tree.root);
  return first === NONE || !tree.hasKey(first) ? { start: 0, end: Math.min(1, source.length) } : tree.keySpan(first);
}

function spanOf(tree: SyntaxTree, node: NodeIndex): Span {
  return tree.isScalar(node) && !tree.isAbsent(node) ? tree.span(node) : tree.keySpan(node);
}
