import { type Document, NONE, type NodeIndex, type Range } from '../engine/index.ts';

/** A name by which a document is looked for. */
export interface NamedPlace {
  readonly name: string;
  readonly what: 'well' | 'data sheet' | 'serial number';
  /** What it belongs to: the field of a well, the kind of a sheet, the well and entry of a serial number. */
  readonly within: string;
  readonly range: Range;
}

/** The well or data sheet that a document describes, and the serial numbers in it. */
export function namedPlaces(document: Document): readonly NamedPlace[] {
  const { tree, kind } = document;
  if (kind === 'installation') {
    const well = place(document, tree.find('site.well'), 'well', textAt(document, 'site.field'));
    return [...well, ...serialPlaces(document, textAt(document, 'site.well'))];
  }
  return kind === undefined ? [] : place(document, tree.find('name'), 'data sheet', kind);
}

function serialPlaces(document: Document, well: string): readonly NamedPlace[] {
  const { tree } = document;
  const places: NamedPlace[] = [];
  for (let node = 0; node < tree.size; node++) {
    if (tree.key(node) !== 'serial' || document.shapes[node] === undefined) continue;
    places.push(...place(document, node, 'serial number', `${well}, ${tree.path(tree.parent(node))}`));
  }
  return places;
}

function place(document: Document, node: NodeIndex, what: NamedPlace['what'], within: string): readonly NamedPlace[] {
  const { tree, source } = document;
  if (node === NONE || !tree.isScalar(node) || tree.isAbsent(node)) return [];
  return [{ name: tree.scalar(node), what, within, range: source.rangeOf(tree.span(node)) }];
}

function textAt({ tree }: Document, key: string): string {
  const node = tree.find(key);
  return node === NONE ? '' : tree.scalar(node);
}
