import type { SourceText } from '../text/source.ts';
import type { Span } from '../text/span.ts';

/** Index of a node in a tree's table; `NONE` where there is none. */
export type NodeIndex = number;
export const NONE: NodeIndex = -1;

export const NodeKind = { mapping: 1, sequence: 2, scalar: 3 } as const;
export type NodeKind = (typeof NodeKind)[keyof typeof NodeKind];

export const ScalarStyle = { plain: 0, single: 1, double: 2, literal: 3, folded: 4 } as const;
export type ScalarStyle = (typeof ScalarStyle)[keyof typeof ScalarStyle];

/**
 * The columns of the node table. A node is a value: a mapping, a sequence or a scalar. What stands in a mapping
 * carries its key; what stands in a sequence its position. Children follow their parent and are linked by
 * `nextSibling`. An absent value (`key:`) is a plain scalar with an empty span right after the colon.
 */
export interface NodeColumns {
  readonly kind: Uint8Array;
  readonly style: Uint8Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly keyStart: Int32Array;
  readonly keyEnd: Int32Array;
  readonly parent: Int32Array;
  readonly firstChild: Int32Array;
  readonly nextSibling: Int32Array;
  readonly childCount: Int32Array;
  /** Position among its siblings, from zero. */
  readonly order: Int32Array;
  /** Cooked key (escapes and folding resolved); empty for an item of a sequence and for the root. */
  readonly key: readonly string[];
  /** Cooked scalar text; empty for a collection. */
  readonly scalar: readonly string[];
}

/** Children from which on a mapping is looked up by an index; fewer are gone through faster. */
const MANY = 100;

/** A parsed text as a flat table. The root is node 0; an empty document has no nodes. */
export class SyntaxTree {
  readonly source: SourceText;
  readonly size: number;
  readonly columns: NodeColumns;
  readonly #indexes = new Map<NodeIndex, ReadonlyMap<string, NodeIndex>>();

  constructor(source: SourceText, size: number, columns: NodeColumns) {
    this.source = source;
    this.size = size;
    this.columns = columns;
  }

  get root(): NodeIndex {
    return this.size > 0 ? 0 : NONE;
  }

  kind(node: NodeIndex): NodeKind | undefined {
    return this.columns.kind[node] as NodeKind | undefined;
  }

  isMapping(node: NodeIndex): boolean {
    return this.columns.kind[node] === NodeKind.mapping;
  }

  isSequence(node: NodeIndex): boolean {
    return this.columns.kind[node] === NodeKind.sequence;
  }

  isScalar(node: NodeIndex): boolean {
    return this.columns.kind[node] === NodeKind.scalar;
  }

  style(node: NodeIndex): ScalarStyle {
    return (this.columns.style[node] ?? 0) as ScalarStyle;
  }

  /** True for `key:` with nothing behind it (also `~` and `null`, which say the same). */
  isAbsent(node: NodeIndex): boolean {
    if (!this.isScalar(node) || this.style(node) !== ScalarStyle.plain) return false;
    const text = this.scalar(node);
    return text === '' || text === '~' || text === 'null' || text === 'Null' || text === 'NULL';
  }

  /** Span of the value. */
  span(node: NodeIndex): Span {
    return { start: this.columns.start[node] ?? 0, end: this.columns.end[node] ?? 0 };
  }

  /** Span of the key; for an item of a sequence or the root, the span of the value. */
  keySpan(node: NodeIndex): Span {
    const start = this.columns.keyStart[node] ?? NONE;
    return start < 0 ? this.span(node) : { start, end: this.columns.keyEnd[node] ?? start };
  }

  hasKey(node: NodeIndex): boolean {
    return (this.columns.keyStart[node] ?? NONE) >= 0;
  }

  key(node: NodeIndex): string {
    return this.columns.key[node] ?? '';
  }

  scalar(node: NodeIndex): string {
    return this.columns.scalar[node] ?? '';
  }

  parent(node: NodeIndex): NodeIndex {
    return this.columns.parent[node] ?? NONE;
  }

  order(node: NodeIndex): number {
    return this.columns.order[node] ?? 0;
  }

  childCount(node: NodeIndex): number {
    return this.columns.childCount[node] ?? 0;
  }

  firstChild(node: NodeIndex): NodeIndex {
    return this.columns.firstChild[node] ?? NONE;
  }

  nextSibling(node: NodeIndex): NodeIndex {
    return this.columns.nextSibling[node] ?? NONE;
  }

  *children(node: NodeIndex): Generator<NodeIndex> {
    for (let at = this.firstChild(node); at !== NONE; at = this.nextSibling(at)) yield at;
  }

  /** The value under `key` in a mapping; of keys given twice the first. */
  child(node: NodeIndex, key: string): NodeIndex {
    if (!this.isMapping(node)) return NONE;
    if (this.childCount(node) > MANY) return this.#indexed(node).get(key) ?? NONE;
    const { key: keys, nextSibling } = this.columns;
    let at = this.firstChild(node);
    while (at !== NONE && keys[at] !== key) at = nextSibling[at] ?? NONE;
    return at;
  }

  /** The keys of a large mapping, gone through once: of ten thousand unknown keys each is looked up. */
  #indexed(node: NodeIndex): ReadonlyMap<string, NodeIndex> {
    const known = this.#indexes.get(node);
    if (known !== undefined) return known;
    const index = new Map<string, NodeIndex>();
    for (const child of this.children(node)) if (!index.has(this.key(child))) index.set(this.key(child), child);
    this.#indexes.set(node, index);
    return index;
  }

  /** The item at `index` in a sequence. */
  item(node: NodeIndex, index: number): NodeIndex {
    if (!this.isSequence(node)) return NONE;
    let at = this.firstChild(node);
    for (let left = index; at !== NONE && left > 0; left--) at = this.nextSibling(at);
    return at;
  }

  /** Dotted path with zero-based indices: `operation.cases[1].intake_pressure`; empty for the root. */
  path(node: NodeIndex): string {
    const parts: string[] = [];
    for (let at = node; this.parent(at) !== NONE; at = this.parent(at)) {
      parts.push(this.hasKey(at) ? `.${this.key(at)}` : `[${this.order(at)}]`);
    }
    const path = parts.reverse().join('');
    return path.startsWith('.') ? path.slice(1) : path;
  }

  /** The path of a node, given that of its parent. */
  pathBelow(parent: string, node: NodeIndex): string {
    if (!this.hasKey(node)) return `${parent}[${this.order(node)}]`;
    return parent === '' ? this.key(node) : `${parent}.${this.key(node)}`;
  }

  /** The node at a dotted path, or `NONE`. */
  find(path: string): NodeIndex {
    return stepsOf(path).reduce<NodeIndex>(
      (at, step) => (typeof step === 'number' ? this.item(at, step) : this.child(at, step)),
      this.root,
    );
  }

  /** The innermost node whose key or value covers `offset`, its end included; the root where none does. */
  nodeAt(offset: number): NodeIndex {
    let node = this.#lastFrom(offset);
    while (this.parent(node) !== NONE && offset > this.span(node).end) node = this.parent(node);
    return node === NONE ? this.root : node;
  }

  /** The last node that begins at or before `offset`; nodes stand in the order of the text, each before what it holds. */
  #lastFrom(offset: number): NodeIndex {
    let low = 0;
    let high = this.size;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#from(middle) <= offset) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  #from(node: NodeIndex): number {
    return this.hasKey(node) ? this.keySpan(node).start : this.span(node).start;
  }
}

/** The steps of a dotted path; text is a key, a number an index. */
export function stepsOf(path: string): readonly (string | number)[] {
  if (path === '') return [];
  if (path.includes('[') || path.includes(']')) return stepsWithIndexes(path);
  // Thousands of declared paths are taken apart at every start: nearly all are names between dots.
  const steps = path.includes('.') ? path.split('.') : [path];
  return steps.includes('') ? steps.filter((step) => step !== '') : steps;
}

function stepsWithIndexes(path: string): readonly (string | number)[] {
  const steps: (string | number)[] = [];
  for (let start = 0; start < path.length; start++) {
    const end = endOfStep(path, start);
    if (end > start) steps.push(stepBetween(path, start, end));
    start = end;
  }
  return steps;
}

function endOfStep(path: string, start: number): number {
  let at = start;
  while (at < path.length && path[at] !== '.' && path[at] !== '[' && path[at] !== ']') at++;
  return at;
}

function stepBetween(path: string, start: number, end: number): string | number {
  const step = path.slice(start, end);
  const isIndex = path[start - 1] === '[' && path[end] === ']' && /^\d+$/.test(step);
  return isIndex ? Number(step) : step;
}
