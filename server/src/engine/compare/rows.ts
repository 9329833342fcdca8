import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';

/** Keys that tell a row of a list from the others, in the order in which they are tried. */
const IDENTITIES = ['name', 'id', 'tap', 'serial', 'md', 'check', 'test', 'item', 'text'];

/** A row of one list beside the row of the other that it is compared with; `NONE` where there is none. */
export interface RowPair {
  readonly before: NodeIndex;
  readonly after: NodeIndex;
  /** What the row is known by: its name, or its position from zero. */
  readonly name: string;
}

/** A list, or the one row that may stand in its place. */
export function rowsIn({ tree }: Document, node: NodeIndex): readonly NodeIndex[] {
  if (node === NONE) return [];
  return tree.isSequence(node) ? [...tree.children(node)] : [node];
}

/** What a row is known by in its list: what names each of them and no two alike; else its position from zero. */
export function rowName(document: Document, row: NodeIndex): string {
  const list = document.tree.parent(row);
  const rows = rowsIn(document, list);
  const key = IDENTITIES.find((each) => names(document, rows, each) !== undefined);
  return key === undefined ? String(document.tree.order(row)) : textAt(document, row, key);
}

/**
 * Rows side by side: by what names them where that is done alike in both lists, else by position, after what is equal at
 * both ends; so that a row that was put in does not make a change of all that follow it.
 */
export function pairRows(
  before: Document,
  rowsBefore: readonly NodeIndex[],
  after: Document,
  rowsAfter: readonly NodeIndex[],
  isEqual: (before: NodeIndex, after: NodeIndex) => boolean,
): readonly RowPair[] {
  for (const key of IDENTITIES) {
    const [old, now] = [names(before, rowsBefore, key), names(after, rowsAfter, key)];
    if (old !== undefined && now !== undefined) return pairNamed(old, now);
  }
  return pairPositions(rowsBefore, rowsAfter, isEqual);
}

function pairNamed(before: ReadonlyMap<string, Row>, after: ReadonlyMap<string, Row>): readonly RowPair[] {
  const all = new Set([...after.keys(), ...before.keys()]);
  return [...all].map((key) => {
    const [old, now] = [before.get(key), after.get(key)];
    return { name: (now ?? old)?.name ?? '', before: old?.node ?? NONE, after: now?.node ?? NONE };
  });
}

function pairPositions(
  before: readonly NodeIndex[],
  after: readonly NodeIndex[],
  isEqual: (before: NodeIndex, after: NodeIndex) => boolean,
): readonly RowPair[] {
  const shorter = Math.min(before.length, after.length);
  const alike = (from: (count: number, rows: readonly NodeIndex[]) => NodeIndex, most: number) => {
    let count = 0;
    while (count < most && isEqual(from(count, before), from(count, after))) count++;
    return count;
  };
  const head = alike((count, rows) => rows[count] ?? NONE, shorter);
  const tail = alike((count, rows) => rows.at(-1 - count) ?? NONE, shorter - head);
  const [old, now] = [before.slice(head, before.length - tail), after.slice(head, after.length - tail)];
  return Array.from({ length: Math.max(old.length, now.length) }, (_, at) => {
    return { name: String(head + at), before: old[at] ?? NONE, after: now[at] ?? NONE };
  });
}

interface Row {
  readonly node: NodeIndex;
  /** As written. */
  readonly name: string;
}

/** The rows by what a key says of each; undefined where it does not tell them all apart. */
function names(document: Document, rows: readonly NodeIndex[], key: string): ReadonlyMap<string, Row> | undefined {
  const named = new Map<string, Row>();
  for (const node of rows) {
    const name = textAt(document, node, key);
    if (name !== '') named.set(sameness(document, node, key), { node, name });
  }
  return named.size === rows.length ? named : undefined;
}

/** Enough to tell two depths of a survey apart, and to find one again that is written in feet. */
const DIGITS = 4;

function sameness(document: Document, row: NodeIndex, key: string): string {
  const quantity = document.quantities[document.tree.child(row, key)];
  return quantity === undefined ? textAt(document, row, key) : `${Number(quantity.value.toPrecision(DIGITS))}`;
}

function textAt({ tree }: Document, row: NodeIndex, key: string): string {
  const node = tree.child(row, key);
  return node === NONE || !tree.isScalar(node) || tree.isAbsent(node) ? '' : tree.scalar(node).trim();
}
