import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex, type SyntaxTree, stepsOf } from '../syntax/tree.ts';
import type { TextEdit } from '../text/problem.ts';
import { commented } from '../text/yaml.ts';
import type { ProposedEntry } from './proposals.ts';

/** Entries to write below one mapping that is there. */
interface Branch {
  /** What is missing of the path, and the entry at its end. */
  readonly missing: readonly string[];
  readonly entry: ProposedEntry;
}

const INDENT = '  ';
const WIDTH = 110;

/** Edits that write entries into a document, each group below the deepest mapping that is there already. */
export function insertEntries(document: Document, entries: readonly ProposedEntry[]): readonly TextEdit[] {
  const byMapping = new Map<NodeIndex, Branch[]>();
  for (const entry of entries) {
    const place = deepestMapping(document.tree, entry.key);
    if (place === undefined) continue;
    const { node, missing } = place;
    byMapping.set(node, [...(byMapping.get(node) ?? []), { missing, entry }]);
  }
  return [...byMapping].flatMap(([node, branches]) =>
    isFlow(document, node) ? intoFlow(document, node, branches) : intoBlock(document, node, branches),
  );
}

/** Undefined where the way is barred by a key that holds no mapping: what its author means is not ours to guess. */
function deepestMapping(tree: SyntaxTree, key: string): { node: NodeIndex; missing: string[] } | undefined {
  const steps = stepsOf(key).map(String);
  let node = tree.root;
  for (let depth = 0; depth < steps.length; depth++) {
    const next = tree.child(node, steps[depth] ?? '');
    if (next === NONE) return { node, missing: steps.slice(depth) };
    if (!tree.isMapping(next)) return undefined;
    node = next;
  }
  return undefined;
}

function isFlow({ tree, source }: Document, node: NodeIndex): boolean {
  return source.text[tree.span(node).start] === '{';
}

/** `, key: value` before the closing brace; what it rests on in comments above the line, where YAML wants them. */
function intoFlow(document: Document, node: NodeIndex, branches: readonly Branch[]): readonly TextEdit[] {
  const { tree, source } = document;
  const { start, end } = tree.span(node);
  const inside = source.text.slice(start, end - 1).trimEnd();
  const at = start + inside.length;
  const separator = tree.childCount(node) === 0 ? ' ' : ', ';
  const texts = branches.map(({ missing, entry }) => nested(missing, entry.text));
  const lineStart = startOfLine(source.text, start);
  const indent = /^[ ]*/.exec(source.text.slice(lineStart))?.[0] ?? '';
  const explained = branches.filter(({ entry }) => entry.basis !== '');
  const comments = explained.flatMap(({ entry: { key, basis } }) =>
    comment(`${key.split('.').at(-1)}: ${commented(basis)}`, indent),
  );
  return [
    { span: { start: lineStart, end: lineStart }, newText: comments.map((line) => `${line}\n`).join('') },
    { span: { start: at, end: end - 1 }, newText: `${separator}${texts.join(', ')} ` },
  ];
}

function nested([first = '', ...rest]: readonly string[], text: string): string {
  return rest.length === 0 ? `${first}: ${text}` : `${first}: { ${nested(rest, text)} }`;
}

/** Lines after the last entry of the mapping, indented as its entries are. */
function intoBlock(document: Document, node: NodeIndex, branches: readonly Branch[]): readonly TextEdit[] {
  const { tree, source } = document;
  const first = tree.firstChild(node);
  const column = first === NONE ? 0 : source.positionAt(tree.keySpan(first).start).character;
  const at = endOfLine(source.text, lastOffset(tree, node));
  const lines = blockLines(branches, ' '.repeat(column));
  return [{ span: { start: at, end: at }, newText: `\n${lines.join('\n')}` }];
}

/** Branches that share their first missing key go below one such key. */
function blockLines(branches: readonly Branch[], indent: string): readonly string[] {
  const byKey = new Map<string, Branch[]>();
  for (const { missing, entry } of branches) {
    const [key = '', ...rest] = missing;
    byKey.set(key, [...(byKey.get(key) ?? []), { missing: rest, entry }]);
  }
  return [...byKey].flatMap(([key, below]) => {
    const only = below[0];
    if (only?.missing.length === 0)
      return entryLines(`${indent}${key}: ${only.entry.text}`, commented(only.entry.basis), indent);
    return [`${indent}${key}:`, ...blockLines(below, indent + INDENT)];
  });
}

/** What an entry rests on stands behind it where the line has room, else above it. */
function entryLines(line: string, basis: string, indent: string): readonly string[] {
  const whole = basis === '' ? line : `${line} # ${basis}`;
  return whole.length <= WIDTH ? [whole] : [...comment(basis, indent), line];
}

/** Broken between words: as one line it would be wider than a screen. */
function comment(text: string, indent: string): readonly string[] {
  const lines = [`${indent}#`];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1)} ${word}`;
    if (longer.length > WIDTH) lines.push(`${indent}# ${word}`);
    else lines[lines.length - 1] = longer;
  }
  return lines;
}

function lastOffset(tree: SyntaxTree, node: NodeIndex): number {
  let last = tree.span(node).end;
  for (const child of tree.children(node)) last = Math.max(tree.keySpan(child).end, lastOffset(tree, child));
  return last;
}

function startOfLine(text: string, offset: number): number {
  return text.lastIndexOf('\n', offset - 1) + 1;
}

function endOfLine(text: string, offset: number): number {
  const at = text.indexOf('\n', offset);
  if (at < 0) return text.length;
  return text[at - 1] === '\r' ? at - 1 : at;
}
