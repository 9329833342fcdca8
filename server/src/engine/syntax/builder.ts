import type { SourceText } from '../text/source.ts';
import type { Span } from '../text/span.ts';
import { LIMITS } from './limits.ts';
import { NONE, type NodeIndex, NodeKind, ScalarStyle, SyntaxTree } from './tree.ts';

/** Where a new node stands: under which parent, after which sibling, and under which key (`keyStart` < 0: none). */
export interface Place {
  readonly parent: NodeIndex;
  readonly previous: NodeIndex;
  readonly keyStart: number;
  readonly keyEnd: number;
  readonly key: string;
}

export const ROOT_PLACE: Place = { parent: NONE, previous: NONE, keyStart: NONE, keyEnd: NONE, key: '' };

/** Grows the node table. Nodes are appended parent first, so a subtree is one contiguous run of the table. */
export class TreeBuilder {
  size = 0;
  #capacity: number;
  #kind: Uint8Array;
  #style: Uint8Array;
  #start: Int32Array;
  #end: Int32Array;
  #keyStart: Int32Array;
  #keyEnd: Int32Array;
  #parent: Int32Array;
  #firstChild: Int32Array;
  #nextSibling: Int32Array;
  #childCount: Int32Array;
  #order: Int32Array;
  readonly #key: string[] = [];
  readonly #scalar: string[] = [];

  /** @param expected how many nodes to make room for; more only cost a copy. */
  constructor(expected: number) {
    this.#capacity = Math.min(Math.max(expected, 16), LIMITS.nodes);
    this.#kind = new Uint8Array(this.#capacity);
    this.#style = new Uint8Array(this.#capacity);
    this.#start = new Int32Array(this.#capacity);
    this.#end = new Int32Array(this.#capacity);
    this.#keyStart = new Int32Array(this.#capacity);
    this.#keyEnd = new Int32Array(this.#capacity);
    this.#parent = new Int32Array(this.#capacity);
    this.#firstChild = new Int32Array(this.#capacity);
    this.#nextSibling = new Int32Array(this.#capacity);
    this.#childCount = new Int32Array(this.#capacity);
    this.#order = new Int32Array(this.#capacity);
  }

  get isFull(): boolean {
    return this.size >= LIMITS.nodes;
  }

  append(kind: NodeKind, style: ScalarStyle, start: number, end: number, scalar: string, place: Place): NodeIndex {
    const node = this.size++;
    if (node === this.#capacity) this.#grow();
    this.#kind[node] = kind;
    this.#style[node] = style;
    this.#start[node] = start;
    this.#end[node] = end;
    this.#keyStart[node] = place.keyStart;
    this.#keyEnd[node] = place.keyEnd;
    this.#firstChild[node] = NONE;
    this.#key.push(place.key);
    this.#scalar.push(scalar);
    this.#link(node, place.parent, place.previous);
    return node;
  }

  #link(node: NodeIndex, parent: NodeIndex, previous: NodeIndex): void {
    this.#parent[node] = parent;
    this.#nextSibling[node] = NONE;
    if (parent === NONE) return;
    this.#order[node] = this.#childCount[parent]!++;
    if (previous === NONE) this.#firstChild[parent] = node;
    else this.#nextSibling[previous] = node;
  }

  /** Appends a copy of the subtree `from` up to, not including, `until`; all of the copy is said to stand at `span`. */
  appendCopy(from: NodeIndex, until: NodeIndex, span: Span, place: Place): NodeIndex {
    const shift = this.size - from;
    const root = this.#appendCopyOf(from, span, place);
    for (let node = from + 1; node < until; node++) {
      const keyed = this.#keyStart[node]! >= 0;
      this.#appendCopyOf(node, span, {
        parent: this.#parent[node]! + shift,
        previous: this.#previousSibling(node, shift),
        keyStart: keyed ? span.start : NONE,
        keyEnd: keyed ? span.end : NONE,
        key: this.#key[node]!,
      });
    }
    return root;
  }

  #appendCopyOf(node: NodeIndex, span: Span, place: Place): NodeIndex {
    const kind = this.#kind[node] as NodeKind;
    return this.append(kind, this.#style[node] as ScalarStyle, span.start, span.end, this.#scalar[node]!, place);
  }

  /** The last child that the copy of the node's parent has so far. */
  #previousSibling(node: NodeIndex, shift: number): NodeIndex {
    const first = this.#firstChild[this.#parent[node]!]!;
    if (first === node) return NONE;
    // Looking back from the node, the nearest one with the same parent is its elder sibling.
    let at = node - 1;
    while (this.#parent[at] !== this.#parent[node]) at = this.#parent[at]!;
    return at + shift;
  }

  /** How many collections of the subtree lie inside one another at its deepest. */
  heightOf(from: NodeIndex, until: NodeIndex): number {
    const depths = new Uint8Array(until - from);
    let height = 0;
    for (let node = from; node < until; node++) {
      const depth = node === from ? 1 : depths[this.#parent[node]! - from]! + 1;
      depths[node - from] = depth;
      if (this.#kind[node] !== NodeKind.scalar) height = Math.max(height, depth);
    }
    return height;
  }

  close(node: NodeIndex, end: number): void {
    this.#end[node] = end;
  }

  /** Lets a scalar reach further than the parser saw. */
  rewrite(node: NodeIndex, start: number, end: number, scalar: string): void {
    this.#start[node] = start;
    this.#end[node] = end;
    this.#scalar[node] = scalar;
  }

  startOf(node: NodeIndex): number {
    return this.#start[node]!;
  }

  endOf(node: NodeIndex): number {
    return this.#end[node]!;
  }

  keyStartOf(node: NodeIndex): number {
    return this.#keyStart[node]!;
  }

  isPlain(node: NodeIndex): boolean {
    return this.#kind[node] === NodeKind.scalar && this.#style[node] === ScalarStyle.plain;
  }

  /** The first child of `parent` under `key`, or `NONE`; linear, for small mappings. */
  childOf(parent: NodeIndex, key: string): NodeIndex {
    let at = this.#firstChild[parent]!;
    while (at !== NONE && this.#key[at] !== key) at = this.#nextSibling[at]!;
    return at;
  }

  /** The children of `parent` by their keys. */
  childrenByKey(parent: NodeIndex): Map<string, NodeIndex> {
    const children = new Map<string, NodeIndex>();
    for (let at = this.#firstChild[parent]!; at !== NONE; at = this.#nextSibling[at]!) {
      const key = this.#key[at]!;
      if (!children.has(key)) children.set(key, at);
    }
    return children;
  }

  childCountOf(node: NodeIndex): number {
    return this.#childCount[node]!;
  }

  finish(source: SourceText): SyntaxTree {
    return new SyntaxTree(source, this.size, {
      kind: this.#kind.subarray(0, this.size),
      style: this.#style.subarray(0, this.size),
      start: this.#start.subarray(0, this.size),
      end: this.#end.subarray(0, this.size),
      keyStart: this.#keyStart.subarray(0, this.size),
      keyEnd: this.#keyEnd.subarray(0, this.size),
      parent: this.#parent.subarray(0, this.size),
      firstChild: this.#firstChild.subarray(0, this.size),
      nextSibling: this.#nextSibling.subarray(0, this.size),
      childCount: this.#childCount.subarray(0, this.size),
      order: this.#order.subarray(0, this.size),
      key: this.#key,
      scalar: this.#scalar,
    });
  }

  #grow(): void {
    this.#capacity *= 2;
    this.#kind = grownBytes(this.#kind);
    this.#style = grownBytes(this.#style);
    this.#start = grownWords(this.#start);
    this.#end = grownWords(this.#end);
    this.#keyStart = grownWords(this.#keyStart);
    this.#keyEnd = grownWords(this.#keyEnd);
    this.#parent = grownWords(this.#parent);
    this.#firstChild = grownWords(this.#firstChild);
    this.#nextSibling = grownWords(this.#nextSibling);
    this.#childCount = grownWords(this.#childCount);
    this.#order = grownWords(this.#order);
  }
}

function grownBytes(column: Uint8Array): Uint8Array {
  const grown = new Uint8Array(column.length * 2);
  grown.set(column);
  return grown;
}

function grownWords(column: Int32Array): Int32Array {
  const grown = new Int32Array(column.length * 2);
  grown.set(column);
  return grown;
}
