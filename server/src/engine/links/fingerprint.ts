import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Document } from '../format/document.ts';
import type { NodeIndex } from '../syntax/tree.ts';

/** Digits that survive the conversion of a reading from any unit to any other. */
const DIGITS = 10;

/**
 * SHA-256 over the canonical content of documents: entries in the order of their keys, quantities in internal units,
 * comments and order left out, so that paper, tablet and repository can be matched.
 */
export function fingerprintOf(documents: readonly Document[]): string {
  const contents = documents.map((document) => `${document.label}\n${canonical(document, document.tree.root)}`);
  return `sha256:${bytesToHex(sha256(utf8ToBytes(contents.join('\n---\n'))))}`;
}

function canonical(document: Document, node: NodeIndex): string {
  const { tree } = document;
  if (tree.isMapping(node)) {
    const entries = [...tree.children(node)].filter((child) => !tree.isAbsent(child));
    const lines = entries.map((child) => `${JSON.stringify(tree.key(child))}:${canonical(document, child)}`);
    return `{${lines.sort().join(',')}}`;
  }
  if (tree.isSequence(node))
    return `[${[...tree.children(node)].map((child) => canonical(document, child)).join(',')}]`;
  return scalarText(document, node);
}

function scalarText(document: Document, node: NodeIndex): string {
  const quantity = document.quantities[node];
  if (quantity === undefined) return JSON.stringify(document.tree.scalar(node));
  const { kind, value, reference, tolerance } = quantity;
  return [kind.name, value.toPrecision(DIGITS), reference ?? '', tolerance.toPrecision(DIGITS)].join(' ');
}
