import { mapValues } from './flatten.mjs';
import { countParts } from './share.mjs';

const HEAD = `// Generated from schemas/ by build/generate.mjs; do not edit.
import type { DocumentKind, Shape } from '../shape.ts';
`;
/** A shape shorter than this reads better in place. */
const SHARE_FROM = 160;

/** `shapes.ts`: the flattened schemas as the engine walks them. */
export function writeShapes(documents, { rangeOf }) {
  const shapes = new Map([...documents].map(([kind, schema]) => [kind, withRanges(toShape(schema), rangeOf)]));
  const pool = new Pool([...shapes.values()]);
  const entries = [...shapes].map(([kind, shape]) => `  ${kind}: ${pool.express(shape)},\n`);
  return [
    HEAD,
    ...pool.constants,
    `export const SHAPES: Readonly<Record<DocumentKind, Shape>> = {\n${entries.join('')}};\n`,
    '/** The newest version of each kind that this engine knows. */',
    `export const VERSIONS: Readonly<Record<DocumentKind, number>> = ${versions(documents)};\n`,
  ].join('\n');
}

function versions(documents) {
  const entries = [...documents].map(([kind, schema]) => [kind, newestVersion(schema)]);
  return JSON.stringify(Object.fromEntries(entries));
}

function newestVersion(schema) {
  return Math.max(...schema.properties.document.enum.map((name) => Number(name.split('/')[1])));
}

function toShape(schema) {
  const { title, description, reference, assumed, examples, date, quantity, choices, required } = schema;
  const shape = { type: typeOf(schema), title, description, ...collectionOf(schema) };
  return dropUndefined({ ...shape, required, quantity, choices, reference, assumed, date, examples });
}

/** With the ends of plausible ranges as numbers: a start has no time to read them. */
function withRanges(shape, rangeOf) {
  const { quantity, keys, open, item } = shape;
  const range = quantity?.plausible && rangeOf(quantity.kind, quantity.plausible);
  return dropUndefined({
    ...shape,
    quantity: range ? { ...quantity, range } : quantity,
    keys: keys && mapValues(keys, (child) => withRanges(child, rangeOf)),
    open: open && withRanges(open, rangeOf),
    item: item && withRanges(item, rangeOf),
  });
}

function typeOf(schema) {
  const type = [schema.type].flat()[0];
  if (type === 'object') return 'map';
  if (type === 'array') return 'list';
  if (type !== 'string') return type;
  return schema.quantity ? 'quantity' : schema.enum ? 'choice' : 'text';
}

function collectionOf(schema) {
  const open = Object.entries(schema.patternProperties ?? {}).find(([pattern]) => pattern !== '^x_');
  return {
    keys: schema.properties && mapValues(schema.properties, toShape),
    open: open && toShape(open[1]),
    openPattern: open?.[0],
    item: schema.items && toShape(schema.items),
    alsoList: Array.isArray(schema.type) || undefined,
  };
}

function dropUndefined(record) {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
}

function childrenOf(shape) {
  return [...Object.values(shape.keys ?? {}), shape.open, shape.item].filter((child) => child !== undefined);
}

/** Writes shapes as source text; what stands more than once becomes a constant. */
class Pool {
  constants = [];
  #counts;
  #names = new Map();

  constructor(shapes) {
    this.#counts = countParts(shapes, childrenOf);
  }

  express(shape) {
    const text = JSON.stringify(shape);
    if (this.#counts.get(text) === 1 || text.length < SHARE_FROM) return this.#write(shape);
    if (!this.#names.has(text)) this.#define(text, shape);
    return this.#names.get(text);
  }

  #define(text, shape) {
    const expression = this.#write(shape);
    const name = `${camelCase(shape.title)}${this.#names.size + 1}`;
    this.#names.set(text, name);
    this.constants.push(`const ${name}: Shape = ${expression};`);
  }

  #write(shape) {
    const fields = Object.entries(shape).map(([field, value]) => `${field}: ${this.#field(field, value)}`);
    return `{ ${fields.join(', ')} }`;
  }

  #field(field, value) {
    if (field === 'open' || field === 'item') return this.express(value);
    if (field !== 'keys') return JSON.stringify(value);
    const keys = Object.entries(value).map(([key, child]) => `${key}: ${this.express(child)}`);
    return `{ ${keys.join(', ')} }`;
  }
}

function camelCase(title) {
  const [first = 'shape', ...others] = title.toLowerCase().match(/[a-z]+/g) ?? [];
  return first + others.map((word) => word[0].toUpperCase() + word.slice(1)).join('');
}
