import { type Document, type Evaluation, NONE, type NodeIndex, type Range } from '../../engine/index.ts';
import type { Workspace } from '../workspace.ts';
import type { Place } from './protocol.ts';

/** The places that a panel leads to, each once; the panel knows them by their number only. */
export class Places {
  readonly #workspace: Workspace;
  readonly #evaluation: Evaluation | undefined;
  readonly #document: Document;
  readonly #all: Place[] = [];
  readonly #numbers = new Map<string, number>();

  constructor(workspace: Workspace, document: Document, evaluation: Evaluation | undefined) {
    this.#workspace = workspace;
    this.#document = document;
    this.#evaluation = evaluation;
  }

  get all(): readonly Place[] {
    return this.#all;
  }

  /** The number of an entry's place; of an absent one the number of the place where it should be. */
  ofKey(key: string): number {
    const located = this.#evaluation?.locate(key);
    return this.#add(located === undefined ? nearest(this.#document, key) : located);
  }

  /** @param line counted from 1 */
  ofLine(path: string, line: number): number {
    const at = { line: line - 1, character: 0 };
    return this.#number({ uri: this.#workspace.open.uriOf(path), start: at, end: at });
  }

  #add({ document, node }: { readonly document: Document; readonly node: NodeIndex }): number {
    const { start, end } = rangeOfEntry(document, node);
    return this.#number({ uri: this.#workspace.open.uriOf(document.path), start, end });
  }

  #number(place: Place): number {
    const name = `${place.uri} ${place.start.line} ${place.start.character}`;
    const known = this.#numbers.get(name);
    if (known !== undefined) return known;
    this.#numbers.set(name, this.#all.length);
    return this.#all.push(place) - 1;
  }
}

/** The innermost entry of a document above a key that is there; the first line if there is none. */
export function nearest(document: Document, key: string): { document: Document; node: NodeIndex } {
  const { tree } = document;
  let path = key;
  while (path !== '') {
    const node = tree.find(path);
    if (node !== NONE) return { document, node };
    path = path.replace(/(?:^|\.)[^.[\]]*$|\[\d+\]$/, '');
  }
  return { document, node: tree.root };
}

export function rangeOfEntry({ tree, source }: Document, node: NodeIndex): Range {
  if (node === NONE || node === tree.root) return source.rangeOf({ start: 0, end: 0 });
  return source.rangeOf(tree.hasKey(node) ? tree.keySpan(node) : tree.span(node));
}
