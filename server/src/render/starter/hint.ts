import { type DocumentKind, SHAPES, type Shape, withArticle } from '../../engine/index.ts';

/** Whether a map is short enough to be told in one line: none of its own entries is a group again. */
export function isLeaf(shape: Shape): boolean {
  if (shape.keys === undefined) return true;
  return Object.values(ownKeys(shape)).every(
    ({ type, item }) => type !== 'map' && (type !== 'list' || item?.keys === undefined),
  );
}

/** What goes into an entry, for a comment behind it. */
export function hintOf(key: string, shape: Shape): string {
  return [titleOf(key, shape), takesText(shape)].filter((part) => part !== '').join(': ');
}

/** The title, where it says more than the key. */
export function titleOf(key: string, { title }: Shape): string {
  return title.toLowerCase() === key.replaceAll('_', ' ') ? '' : title;
}

function takesText(shape: Shape): string {
  if (shape.type === 'map' && shape.keys !== undefined) return `takes ${childTexts(shape)}`;
  if (shape.type === 'list' && shape.item?.keys !== undefined) return `a list; each takes ${childTexts(shape.item)}`;
  if (shape.open !== undefined)
    return `entries such as ${shape.open.examples?.join(', ') ?? shape.open.title.toLowerCase()}`;
  return scalarText(shape.type === 'list' ? (shape.item ?? shape) : shape);
}

function childTexts(shape: Shape): string {
  const all = Object.entries(ownKeys(shape));
  // What has a default can wait until somebody looks for it.
  const due = all.filter(([, { assumed }]) => assumed === undefined);
  const texts = (due.length === 0 ? all : due).map(([key, child]) => {
    const text = scalarText(child);
    return text === '' ? key : `${key} (${text})`;
  });
  return texts.join(', ');
}

function scalarText(shape: Shape): string {
  if (shape.quantity !== undefined) return shape.quantity.usual.filter((unit) => unit !== '').join(' or ');
  if (shape.reference !== undefined) return `path to ${withArticle(shape.reference)}`;
  if (shape.choices !== undefined) return Object.keys(shape.choices).join(' | ');
  if (shape.type === 'boolean') return 'yes | no';
  return shape.examples === undefined ? '' : `such as ${shape.examples.join(', ')}`;
}

/** The keys of a map; of an entry that refers to a data sheet, only those that the sheet does not answer for. */
export function ownKeys(shape: Shape): Readonly<Record<string, Shape>> {
  const keys = shape.keys ?? {};
  const sheet = keys.datasheet?.reference?.split('/')[0] as DocumentKind | undefined;
  if (sheet === undefined) return keys;
  const answered = SHAPES[sheet].keys ?? {};
  return Object.fromEntries(Object.entries(keys).filter(([key]) => !isAnswered(key, answered, sheet)));
}

/** A cable's run has a length of its own, whatever the sheet says of the reel. */
function isAnswered(key: string, answered: Readonly<Record<string, Shape>>, sheet: DocumentKind): boolean {
  return Object.hasOwn(answered, key) && !(sheet === 'cable' && key === 'length');
}
