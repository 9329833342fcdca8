import type { Document } from '../format/document.ts';
import type { DocumentKind } from '../format/shape.ts';
import type { NodeIndex } from '../syntax/tree.ts';
import { resolvePath } from './paths.ts';

/** A reference from one document to another, as written and as resolved. */
export interface Reference {
  /** The scalar that holds the path. */
  readonly node: NodeIndex;
  /** The entry that the data sheet stands behind: the parent of that scalar. */
  readonly entry: NodeIndex;
  readonly written: string;
  readonly path: string;
  readonly kind: DocumentKind;
}

/** The references that a document makes, in the order of its text. */
export function referencesOf(document: Document): readonly Reference[] {
  const references: Reference[] = [];
  document.shapes.forEach((shape, node) => {
    const due = shape?.reference?.split('/')[0] as DocumentKind | undefined;
    if (due === undefined || !document.tree.isScalar(node) || document.tree.isAbsent(node)) return;
    const written = document.tree.scalar(node);
    references.push({
      node,
      entry: document.tree.parent(node),
      written,
      path: resolvePath(document.path, written),
      kind: due,
    });
  });
  return references;
}
