import type { Document } from '../format/document.ts';
import { toAbsolute } from '../quantity/convert.ts';
import type { Reference } from '../quantity/types.ts';
import { NONE, type NodeIndex, stepsOf } from '../syntax/tree.ts';
import { atmosphereAt } from './atmosphere.ts';
import { type Corner, NOMINAL, valueAt } from './corner.ts';

/** A node in one of the documents that make up an installation. */
export interface Located {
  readonly document: Document;
  readonly node: NodeIndex;
}

/** The places of the format that refer to a data sheet, with the kind of sheet due there. */
export const SLOTS: readonly { readonly path: string; readonly kind: string }[] = [
  { path: 'equipment.pump', kind: 'pump' },
  { path: 'equipment.motor', kind: 'motor' },
  { path: 'equipment.gauge', kind: 'gauge' },
  { path: 'equipment.cable.main', kind: 'cable' },
  { path: 'equipment.cable.motor_lead', kind: 'cable' },
  { path: 'equipment.transformer', kind: 'transformer' },
  { path: 'equipment.drive', kind: 'drive' },
];

type Steps = readonly (string | number)[];

/** Cases that are worked out. A well has a handful; each costs a run over all values, and some look at all others. */
export const MOST_CASES = 100;

/**
 * An installation together with the data sheets that it refers to. An entry of a piece of equipment stands for the
 * nameplate of that very item, and its sheet answers for what the entry does not say.
 */
export class Installation {
  readonly document: Document;
  /** Data sheet by the node of the equipment entry that refers to it; a broken or absent sheet is not in it. */
  readonly sheets: ReadonlyMap<NodeIndex, Document>;
  /** Absolute pressure of the surrounding air at `site.elevation`, Pa. */
  readonly atmosphere: number;
  readonly caseNodes: readonly NodeIndex[];
  readonly #corner: Corner;
  /** What a pressure without a stated reference is measured from in this file. */
  readonly bareMeans: Reference;

  constructor(document: Document, sheets: ReadonlyMap<NodeIndex, Document>, corner: Corner = NOMINAL) {
    this.document = document;
    this.sheets = sheets;
    this.#corner = corner;
    const { tree } = document;
    this.caseNodes = [...tree.children(tree.find('operation.cases'))].slice(0, MOST_CASES);
    this.bareMeans = tree.scalar(tree.find('conventions.pressure')) === 'absolute' ? 'absolute' : 'gauge';
    const elevation = document.quantities[tree.find('site.elevation')]?.value ?? 0;
    this.atmosphere = atmosphereAt(elevation);
  }

  /** The entry at a dotted path, in the installation or in the data sheet that stands behind it. */
  locate(path: string): Located | undefined {
    return this.locateFrom(this.document.tree.root, stepsOf(path));
  }

  /** The same, from a node of the installation on. */
  locateFrom(node: NodeIndex, steps: Steps): Located | undefined {
    const { tree } = this.document;
    let at = node;
    for (let index = 0; index < steps.length; index++) {
      const next = step(this.document, at, steps[index] ?? '');
      if (next === NONE) return this.#inSheet(at, steps.slice(index));
      at = next;
    }
    return at === NONE || tree.isAbsent(at) ? undefined : { document: this.document, node: at };
  }

  /** The number of an entry in its kind's internal unit, pressures absolute; NaN where none could be read. */
  number(located: Located): number {
    const { document, node } = located;
    const quantity = document.quantities[node];
    if (quantity === undefined) return plainNumber(document, node);
    const value = valueAt(quantity, this.#corner);
    if (quantity.kind.point !== 'pressure') return value;
    const bareMeans = document === this.document ? this.bareMeans : 'gauge';
    return toAbsolute({ ...quantity, value }, bareMeans, this.atmosphere);
  }

  text(located: Located): string {
    return located.document.tree.scalar(located.node);
  }

  #inSheet(entry: NodeIndex, steps: Steps): Located | undefined {
    const sheet = this.sheets.get(entry);
    // The run's length is not the sheet's, and a sheet's key is replaced whole, so only a first-level miss goes there.
    if (sheet === undefined) return undefined;
    let at = sheet.tree.root;
    for (const each of steps) at = step(sheet, at, each);
    return at === NONE || sheet.tree.isAbsent(at) ? undefined : { document: sheet, node: at };
  }
}

function step(document: Document, node: NodeIndex, by: string | number): NodeIndex {
  return typeof by === 'number' ? document.tree.item(node, by) : document.tree.child(node, by);
}

/** Numbers that carry no unit by their nature: counts, poles, attempts. */
function plainNumber(document: Document, node: NodeIndex): number {
  const type = document.shapes[node]?.type;
  if (type !== 'number' && type !== 'integer') return Number.NaN;
  const text = document.tree.scalar(node);
  return text.trim() === '' ? Number.NaN : Number(text);
}
