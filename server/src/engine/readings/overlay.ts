import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex, ScalarStyle, stepsOf } from '../syntax/tree.ts';

/** New texts of entries by dotted key, each as YAML on one line. */
export type Overlay = ReadonlyMap<string, string>;

type Branch = Map<string, Part>;
type Part = string | Branch | readonly Part[];

/** A document written anew with some of its entries replaced or added; comments and layout are not kept. */
export function overlaid(document: Document, overlay: Overlay): string {
  const root = partOf(document, document.tree.root);
  if (!(root instanceof Map)) return document.source.text;
  for (const [key, text] of overlay) plant(root, stepsOf(key).map(String), text);
  return `${linesOf(root, '').join('\n')}\n`;
}

function partOf(document: Document, node: NodeIndex): Part {
  const { tree } = document;
  if (tree.isMapping(node))
    return new Map([...tree.children(node)].map((child) => [tree.key(child), partOf(document, child)]));
  if (tree.isSequence(node)) return [...tree.children(node)].map((child) => partOf(document, child));
  return scalarText(document, node);
}

/** A scalar as YAML that reads back as the same: as it was written where that is one plain line. */
export function scalarText({ tree, source }: Document, node: NodeIndex): string {
  if (node === NONE || tree.isAbsent(node)) return '';
  const written = source.slice(tree.span(node));
  const isPlain = tree.style(node) === ScalarStyle.plain && !/[\r\n]/.test(written);
  return isPlain ? written : JSON.stringify(tree.scalar(node));
}

function plant(branch: Branch, [step = '', ...rest]: readonly string[], text: string): void {
  if (rest.length === 0) {
    branch.set(step, text);
    return;
  }
  const there = branch.get(step);
  const next: Branch = there instanceof Map ? there : new Map();
  branch.set(step, next);
  plant(next, rest, text);
}

function linesOf(part: Part, indent: string): readonly string[] {
  if (typeof part === 'string') return [`${indent}${part}`];
  if (part instanceof Map) return [...part].flatMap(([key, value]) => entryLines(`${keyText(key)}:`, value, indent));
  return part.flatMap((item) => entryLines('-', item, indent));
}

function entryLines(head: string, part: Part, indent: string): readonly string[] {
  if (typeof part === 'string') return [`${indent}${head} ${part}`.trimEnd()];
  const isEmpty = part instanceof Map ? part.size === 0 : part.length === 0;
  if (isEmpty) return [`${indent}${head} ${part instanceof Map ? '{}' : '[]'}`];
  return [`${indent}${head}`, ...linesOf(part, `${indent}  `)];
}

function keyText(key: string): string {
  return /^[a-z_][\w-]*$/i.test(key) ? key : JSON.stringify(key);
}
