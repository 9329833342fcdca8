import type { Document } from '../format/document.ts';
import type { Quantity } from '../quantity/types.ts';
import type { NodeIndex } from '../syntax/tree.ts';

/** An entry for which its author states a tolerance. */
export interface Toleranced {
  readonly document: Document;
  readonly node: NodeIndex;
  readonly quantity: Quantity;
  /** Dotted key in its own document. */
  readonly key: string;
}

/** One way in which the toleranced entries may lie: each at its low or high end, the others as written. */
export interface Corner {
  readonly ends: ReadonlyMap<Quantity, 'low' | 'high'>;
}

/** All as written. */
export const NOMINAL: Corner = { ends: new Map() };

/** Setpoints are what is judged, and deviations what is accepted: neither is a fact that may lie elsewhere. */
const JUDGED = /^(setpoints|deviations)\b/;

/** The toleranced entries of an installation and its data sheets, in the order of the texts. */
export function toleranced(documents: Iterable<Document>): readonly Toleranced[] {
  const found: Toleranced[] = [];
  for (const document of new Set(documents)) {
    document.quantities.forEach((quantity, node) => {
      if (quantity === undefined || !(quantity.tolerance > 0)) return;
      const key = document.tree.path(node);
      if (!JUDGED.test(key)) found.push({ document, node, quantity, key });
    });
  }
  return found;
}

/** The number to compute with: as written, or at the end of its tolerance that the corner names. */
export function valueAt(quantity: Quantity, { ends }: Corner): number {
  if (ends.size === 0 || quantity.tolerance === 0) return quantity.value;
  const end = ends.get(quantity);
  if (end === undefined) return quantity.value;
  return end === 'low' ? quantity.value - quantity.tolerance : quantity.value + quantity.tolerance;
}
