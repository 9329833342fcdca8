import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import type { Document, NodeIndex } from '../engine/index.ts';
import { visible } from '../render/escape.ts';

const NAMING_KEYS = ['name', 'item', 'check', 'test', 'tap'];

/** The entries of a document as an outline; items of lists go by their name. */
export function documentSymbols(document: Document): DocumentSymbol[] {
  return childrenOf(document, document.tree.root);
}

function childrenOf(document: Document, node: NodeIndex): DocumentSymbol[] {
  return [...document.tree.children(node)].map((child) => symbolOf(document, child));
}

function symbolOf(document: Document, node: NodeIndex): DocumentSymbol {
  const { tree, source } = document;
  const key = tree.keySpan(node);
  const range = source.rangeOf({ start: key.start, end: Math.max(key.end, tree.span(node).end) });
  const selectionRange = tree.hasKey(node) ? source.rangeOf(key) : range;
  const detail = tree.isScalar(node) && tree.hasKey(node) ? tree.scalar(node) : undefined;
  const children = childrenOf(document, node);
  return {
    name: visible(nameOf(document, node)),
    kind: kindOf(document, node),
    range,
    selectionRange,
    ...(detail && { detail: visible(detail) }),
    ...(children.length > 0 && { children }),
  };
}

/** Editors refuse a symbol without a name. */
function nameOf({ tree }: Document, node: NodeIndex): string {
  if (tree.hasKey(node)) return tree.key(node).trim() || '(no name)';
  const naming = NAMING_KEYS.map((key) => tree.scalar(tree.child(node, key))).find((text) => text !== '');
  return naming ?? (tree.scalar(node).trim() || `item ${tree.order(node) + 1}`);
}

function kindOf({ tree, quantities }: Document, node: NodeIndex): SymbolKind {
  if (tree.isMapping(node)) return SymbolKind.Object;
  if (tree.isSequence(node)) return SymbolKind.Array;
  return quantities[node] === undefined ? SymbolKind.String : SymbolKind.Number;
}
