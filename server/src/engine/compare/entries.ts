import type { Document } from '../format/document.ts';
import type { Shape } from '../format/shape.ts';
import { resolvePath } from '../links/paths.ts';
import { formatMeasure } from '../quantity/format.ts';
import type { Quantity } from '../quantity/types.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';
import { type Difference, differenceOf, type Measured } from './measured.ts';
import { pairRows, rowName, rowsIn } from './rows.ts';
import { absoluteOf, referenceOf, type Side, sideOf } from './side.ts';

/** An entry that is not the same on both sides. */
export interface EntryChange {
  /** Dotted key with positions from zero; as it is after the change, or was before it where it is gone. */
  readonly key: string;
  /** The same with rows by what names them: `operation.cases[target].intake`. */
  readonly label: string;
  /** First step of the key. */
  readonly section: string;
  /** What the format calls it; empty where it has no name of its own. */
  readonly title: string;
  /** `rewritten` says the same in another unit or spelling. */
  readonly change: 'added' | 'removed' | 'changed' | 'rewritten';
  readonly before: Measured | undefined;
  readonly after: Measured | undefined;
  readonly difference: Difference | undefined;
}

/** Whether a number in another unit is still the same: what rounding to the digits of a page does, and no more. Practice, no source. */
const SAME = 2e-4;
/** Of temperatures a share means nothing; K. Practice, no source: a tenth of what a gauge in a well resolves at best. */
const SAME_TEMPERATURE = 0.05;
/** What computing leaves of an equal number. */
const ROUNDING = 1e-9;

/** The entries that differ between two documents of a kind, in the order of the later one, then those that are gone. */
export function compareEntries(before: Document, after: Document): readonly EntryChange[] {
  const walk = new EntryWalk(sideOf(before), sideOf(after));
  walk.visit({ before: before.tree.root, after: after.tree.root, label: '' });
  return walk.changes;
}

/** A key with its rows by what names them. */
export function labelOf(document: Document, key: string): string {
  const { tree } = document;
  const node = tree.find(key);
  return node === NONE ? key : labelOfNode(document, node);
}

export function labelOfNode(document: Document, node: NodeIndex): string {
  const { tree } = document;
  const parts: string[] = [];
  for (let at = node; tree.parent(at) !== NONE; at = tree.parent(at)) {
    parts.push(tree.hasKey(at) ? `.${tree.key(at)}` : `[${rowName(document, at)}]`);
  }
  return parts.reverse().join('').replace(/^\./, '');
}

interface Pair {
  readonly before: NodeIndex;
  readonly after: NodeIndex;
  readonly label: string;
}

class EntryWalk {
  readonly changes: EntryChange[] = [];
  readonly #before: Side;
  readonly #after: Side;

  constructor(before: Side, after: Side) {
    this.#before = before;
    this.#after = after;
  }

  visit(pair: Pair): void {
    const [old, now] = [formOf(this.#before.document, pair.before), formOf(this.#after.document, pair.after)];
    if (old === 'nothing' && now === 'nothing') return;
    const isOne = old === 'nothing' || now === 'nothing' || old === now;
    if (isOne) this.#visitAs(old === 'nothing' ? now : old, pair);
    // One map and a list of such maps say the same thing of one and of several.
    else if ([old, now].every((form) => form === 'map' || form === 'rows')) this.#visitRows(pair);
    else {
      this.visit({ ...pair, before: NONE });
      this.visit({ ...pair, after: NONE });
    }
  }

  #visitAs(form: Form, pair: Pair): void {
    if (form === 'map') this.#visitMap(pair);
    else if (form === 'rows') this.#visitRows(pair);
    else this.#compare(pair);
  }

  #visitMap({ before, after, label }: Pair): void {
    const [old, now] = [this.#before.document.tree, this.#after.document.tree];
    const keys = new Set([...now.children(after)].map((node) => now.key(node)));
    for (const node of old.children(before)) keys.add(old.key(node));
    for (const key of keys) {
      const name = label === '' ? key : `${label}.${key}`;
      this.visit({ before: old.child(before, key), after: now.child(after, key), label: name });
    }
  }

  #visitRows({ before, after, label }: Pair): void {
    const [old, now] = [this.#before.document, this.#after.document];
    const isEqual = (one: NodeIndex, other: NodeIndex) => this.#isEqual(one, other);
    for (const row of pairRows(old, rowsIn(old, before), now, rowsIn(now, after), isEqual)) {
      this.visit({ before: row.before, after: row.after, label: `${label}[${row.name}]` });
    }
  }

  #isEqual(before: NodeIndex, after: NodeIndex): boolean {
    const walk = new EntryWalk(this.#before, this.#after);
    walk.visit({ before, after, label: '' });
    return walk.changes.every(({ change }) => change === 'rewritten');
  }

  #compare({ before, after, label }: Pair): void {
    const [old, now] = [entryOf(this.#before, before), entryOf(this.#after, after)];
    const change = changeOf(old, now);
    if (change === undefined) return;
    const entry = (now ?? old) as Entry;
    const { tree, shapes } = entry.side.document;
    this.changes.push({
      key: tree.path(entry.node),
      label,
      section: /^[^.[]*/.exec(label)?.[0] ?? '',
      title: shapes[entry.node]?.title ?? '',
      change,
      ...shownOf(old, now),
    });
  }
}

type Form = 'nothing' | 'map' | 'rows' | 'entry';

/** A list of texts is an entry like any other: its order and its whole are what it says. */
function formOf({ tree }: Document, node: NodeIndex): Form {
  if (node === NONE || tree.isAbsent(node)) return 'nothing';
  if (tree.isMapping(node)) return tree.childCount(node) === 0 ? 'nothing' : 'map';
  if (!tree.isSequence(node)) return 'entry';
  if (tree.childCount(node) === 0) return 'nothing';
  return [...tree.children(node)].every((child) => tree.isScalar(child)) ? 'entry' : 'rows';
}

/** An entry with its side. */
interface Entry {
  readonly side: Side;
  readonly node: NodeIndex;
  readonly text: string;
  readonly quantity: Quantity | undefined;
  readonly shape: Shape | undefined;
}

function entryOf(side: Side, node: NodeIndex): Entry | undefined {
  if (formOf(side.document, node) !== 'entry') return undefined;
  const { quantities, shapes } = side.document;
  return { side, node, text: textOf(side.document, node), quantity: quantities[node], shape: shapes[node] };
}

function textOf({ tree }: Document, node: NodeIndex): string {
  if (!tree.isSequence(node)) return oneLine(tree.scalar(node));
  return `[${[...tree.children(node)].map((child) => oneLine(tree.scalar(child))).join(', ')}]`;
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

function changeOf(before: Entry | undefined, after: Entry | undefined): EntryChange['change'] | undefined {
  if (before === undefined || after === undefined) return after === undefined ? before && 'removed' : 'added';
  const isSame = saysSame(before, after);
  if (isSame) return isWrittenAlike(before, after) ? undefined : 'rewritten';
  return 'changed';
}

function isWrittenAlike(before: Entry, after: Entry): boolean {
  return before.text === after.text;
}

function saysSame(before: Entry, after: Entry): boolean {
  if (before.quantity !== undefined && after.quantity !== undefined) {
    return sameQuantity(before, before.quantity, after, after.quantity);
  }
  return before.quantity === after.quantity && meaningOf(before) === meaningOf(after);
}

function sameQuantity(before: Entry, old: Quantity, after: Entry, now: Quantity): boolean {
  if (old.kind !== now.kind || old.alternate !== now.alternate) return false;
  const isAsWritten = old.unit === now.unit && referenceOf(old, before.side) === referenceOf(now, after.side);
  if (isAsWritten) return isClose(old.number, now.number, ROUNDING) && isClose(old.tolerance, now.tolerance, ROUNDING);
  const [from, to] = comparable(before, old, after, now);
  return sameNumber(from, to, now) && isClose(old.tolerance, now.tolerance, SAME);
}

/** Numbers on one scale: pressures of two references meet as absolute ones. */
function comparable(before: Entry, old: Quantity, after: Entry, now: Quantity): readonly [number, number] {
  if (referenceOf(old, before.side) === referenceOf(now, after.side)) return [old.value, now.value];
  return [absoluteOf(old, before.side), absoluteOf(now, after.side)];
}

function sameNumber(before: number, after: number, { kind }: Quantity): boolean {
  if (kind.point === 'temperature') return Math.abs(after - before) <= SAME_TEMPERATURE;
  return isClose(before, after, SAME);
}

function isClose(a: number, b: number, share: number): boolean {
  return Math.abs(a - b) <= share * Math.max(Math.abs(a), Math.abs(b));
}

/** What a text says, whatever its spelling: a number, yes or no, a path. */
function meaningOf({ text, shape }: Entry): string {
  if (shape?.type === 'boolean') return /^(yes|true|on)$/i.test(text) ? 'yes' : text.toLowerCase();
  if ((shape?.type === 'number' || shape?.type === 'integer') && text !== '') return String(Number(text));
  return shape?.reference === undefined ? text : resolvePath('', text);
}

/** Both as written, with what is needed to see that they differ, or that they do not. */
function shownOf(
  before: Entry | undefined,
  after: Entry | undefined,
): Pick<EntryChange, 'before' | 'after' | 'difference'> {
  const [old, now] = [before?.quantity, after?.quantity];
  if (before === undefined || after === undefined || old === undefined || now === undefined || old.kind !== now.kind) {
    return {
      before: before && measuredOf(before),
      after: after && measuredOf(after),
      difference: plainDifference(before, after),
    };
  }
  const [from, to] = [referenceOf(old, before.side), referenceOf(now, after.side)];
  const isTurned = from !== to;
  const [a, b] = comparable(before, old, after, now);
  return {
    before: measuredOf(before, converted(before, old, now, isTurned)),
    after: measuredOf(after, isTurned ? meant(to) : ''),
    difference: a === b ? undefined : differenceOf(a, b, now.kind, now.unit),
  };
}

/** The number before in the unit after, where they differ; what a pressure is measured from, where that differs. */
function converted({ side }: Entry, old: Quantity, now: Quantity, isTurned: boolean): string {
  const reference = isTurned ? referenceOf(old, side) : undefined;
  if (old.unit === now.unit) return meant(reference);
  return formatMeasure(old.value, now.kind, now.unit, reference);
}

function meant(reference: string | undefined): string {
  return reference === undefined ? '' : reference;
}

function measuredOf(entry: Entry, remark = ''): Measured {
  const { side, text, quantity } = entry;
  return {
    text: remark === '' ? text : `${text} (${remark})`,
    number: quantity === undefined ? plainNumber(entry) : absoluteOf(quantity, side),
    unit: quantity?.kind.internal ?? '',
  };
}

function plainNumber({ text, shape }: Entry): number | undefined {
  const isNumber = shape?.type === 'number' || shape?.type === 'integer';
  return isNumber && text !== '' && Number.isFinite(Number(text)) ? Number(text) : undefined;
}

/** Of counts, such as the number of a tap: up or down, and by how many. */
function plainDifference(before: Entry | undefined, after: Entry | undefined): Difference | undefined {
  const [from, to] = [before && plainNumber(before), after && plainNumber(after)];
  if (from === undefined || to === undefined || from === to) return undefined;
  return { text: `${to > from ? '+' : '-'}${Math.abs(to - from)}`, number: to - from, percent: undefined };
}
