import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';
import { compareEntries, type EntryChange } from './entries.ts';

/** The installation that another one is most like. */
export interface Copy {
  readonly path: string;
  readonly name: string;
  /** How many entries are equal, of how many. */
  readonly equal: number;
  readonly total: number;
  /** What is not the same, from the original to the copy. */
  readonly entries: readonly EntryChange[];
}

/** From this share of equal entries on a file is called a copy. Practice, no source: wells of one pad share about half. */
const LEAST_EQUAL = 0.8;

type Leaves = ReadonlyMap<string, string>;

/** Documents that others may have been copied from. */
export class Originals {
  readonly #documents: readonly Document[];
  #leaves: ReadonlyMap<Document, Leaves> | undefined;

  constructor(documents: readonly Document[]) {
    this.#documents = documents;
  }

  /** The one that a document is most like, the first of them if several are; undefined where none is much like it. */
  likest(document: Document, isOpen: (other: Document) => boolean = () => true): Copy | undefined {
    const own = leavesOf(document);
    let best: { readonly other: Document; readonly equal: number; readonly total: number } | undefined;
    for (const [other, leaves] of this.#all()) {
      if (other.path === document.path || other.kind !== document.kind || !isOpen(other)) continue;
      const { equal, total } = overlap(own, leaves);
      const isLiker = best === undefined || equal * best.total > best.equal * total;
      if (equal >= LEAST_EQUAL * total && isLiker) best = { other, equal, total };
    }
    return best === undefined ? undefined : copyOf(document, best);
  }

  /** Read when they are asked for: mostly nothing is new. */
  #all(): ReadonlyMap<Document, Leaves> {
    this.#leaves ??= new Map(this.#documents.map((each) => [each, leavesOf(each)]));
    return this.#leaves;
  }
}

function copyOf(document: Document, { other, equal, total }: { other: Document; equal: number; total: number }): Copy {
  const entries = compareEntries(other, document).filter(({ change }) => change !== 'rewritten');
  return { path: other.path, name: other.tree.scalar(other.tree.find('site.well')).trim(), equal, total, entries };
}

function overlap(own: Leaves, other: Leaves) {
  let equal = 0;
  for (const [key, text] of own) if (other.get(key) === text) equal++;
  return { equal, total: Math.max(own.size, other.size) };
}

const DIGITS = 6;

/** What stands at each key, quantities in internal units. */
function leavesOf(document: Document): Leaves {
  const leaves = new Map<string, string>();
  const { tree, quantities } = document;
  const visit = (node: NodeIndex, path: string): void => {
    if (tree.isScalar(node) && !tree.isAbsent(node)) {
      const quantity = quantities[node];
      leaves.set(path, quantity === undefined ? tree.scalar(node) : quantity.value.toPrecision(DIGITS));
    }
    for (const child of tree.children(node))
      visit(child, `${path}/${tree.hasKey(child) ? tree.key(child) : tree.order(child)}`);
  };
  if (tree.root !== NONE) visit(tree.root, '');
  return leaves;
}
