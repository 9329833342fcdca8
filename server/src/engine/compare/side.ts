import type { Document } from '../format/document.ts';
import { atmosphereAt } from '../links/atmosphere.ts';
import { toAbsolute } from '../quantity/convert.ts';
import type { Quantity, Reference } from '../quantity/types.ts';

/** One side of a comparison: a document, and how pressures are read in it. */
export interface Side {
  readonly document: Document;
  /** What a pressure without a stated reference is measured from. */
  readonly bareMeans: Reference;
  /** Pa absolute. */
  readonly atmosphere: number;
}

export function sideOf(document: Document): Side {
  const { tree, quantities } = document;
  const elevation = quantities[tree.find('site.elevation')]?.value ?? 0;
  const isAbsolute = tree.scalar(tree.find('conventions.pressure')) === 'absolute';
  return { document, bareMeans: isAbsolute ? 'absolute' : 'gauge', atmosphere: atmosphereAt(elevation) };
}

/** What a pressure is measured from; undefined for all that is no pressure. */
export function referenceOf(quantity: Quantity, { bareMeans }: Side): Reference | undefined {
  return quantity.kind.point === 'pressure' ? (quantity.reference ?? bareMeans) : undefined;
}

/** In the internal unit, pressures absolute. */
export function absoluteOf(quantity: Quantity, { bareMeans, atmosphere }: Side): number {
  return quantity.kind.point === 'pressure' ? toAbsolute(quantity, bareMeans, atmosphere) : quantity.value;
}
