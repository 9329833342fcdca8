import type { Quantity } from '../quantity/types.ts';
import type { SyntaxTree } from '../syntax/tree.ts';
import type { Problem } from '../text/problem.ts';
import type { SourceText } from '../text/source.ts';
import type { DocumentKind, Shape } from './shape.ts';

/** A text read as one of our documents: its tree, the shape of each node, its quantities, and what is wrong with it. */
export interface Document {
  /** Path as the host names it, with `/`. */
  readonly path: string;
  readonly source: SourceText;
  readonly tree: SyntaxTree;
  /** Undefined when the `document` key is absent, misspelled or names a kind that we do not know. */
  readonly kind: DocumentKind | undefined;
  /** The `document` entry as written, such as `pump/1`; `unknown/0` if there is none. */
  readonly label: string;
  /** Whether it claims, or seems, to be a document of ours; other files are left alone. */
  readonly ours: boolean;
  /** Shape of each node by index; undefined below an unknown key. */
  readonly shapes: readonly (Shape | undefined)[];
  /** Quantity of each node by index where one is due and could be read. */
  readonly quantities: readonly (Quantity | undefined)[];
  readonly problems: readonly Problem[];
}
