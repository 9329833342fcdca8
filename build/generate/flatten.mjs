// Resolves every `$ref`, so that a closed map lists all its keys itself: `additionalProperties: false` sees no further
// than its own `properties`, and types and shapes are read off one tree.
import { SchemaError } from './read.mjs';

/** The schema of a document kind as one tree without references. */
export function flattenDocument(files, kind) {
  const file = `${kind}.schema.json`;
  return flatten(files, { file, trail: [] }, files.get(file));
}

function flatten(files, at, schema) {
  if (typeof schema !== 'object') return schema;
  const { $ref, $schema: _dialect, $defs: _definitions, unevaluatedProperties, ...rest } = schema;
  const own = flattenChildren(files, at, rest);
  if (unevaluatedProperties === false) own.additionalProperties = false;
  return $ref === undefined ? own : merge(at, resolve(files, at, $ref), own);
}

function flattenChildren(files, at, schema) {
  const result = { ...schema };
  const child = (value) => flatten(files, at, value);
  for (const group of ['properties', 'patternProperties']) {
    if (result[group]) result[group] = mapValues(result[group], child);
  }
  if (result.items) result.items = child(result.items);
  return result;
}

function resolve(files, at, reference) {
  const [name, pointer = ''] = reference.split('#');
  const file = name === '' ? at.file : name;
  const place = `${file}#${pointer}`;
  if (at.trail.includes(place)) throw new SchemaError([`${at.file}: ${reference} refers to itself.`]);
  const target = pointer
    .split('/')
    .slice(1)
    .reduce((node, step) => node?.[step], files.get(file));
  if (target === undefined) throw new SchemaError([`${at.file}: ${reference} leads nowhere.`]);
  return flatten(files, { file, trail: [...at.trail, place] }, target);
}

/** A base with what its user adds. Texts may be said anew; a key or a type said twice would be a conjunction. */
function merge(at, base, own) {
  const twice = Object.keys(own.properties ?? {}).filter((key) => Object.hasOwn(base.properties ?? {}, key));
  if (own.type && base.type && String(own.type) !== String(base.type)) twice.push('type');
  if (twice.length > 0) {
    throw new SchemaError(twice.map((key) => `${at.file}: "${own.title}" gives ${key} anew; its $ref has it already.`));
  }
  const merged = { ...base, ...own };
  for (const group of ['properties', 'patternProperties']) {
    if (base[group] || own[group]) merged[group] = { ...base[group], ...own[group] };
  }
  if (base.required || own.required)
    merged.required = [...new Set([...(base.required ?? []), ...(own.required ?? [])])];
  return merged;
}

export function mapValues(record, change) {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value, key)]));
}

/** Calls back with each schema of a flattened tree and its dotted place. */
export function visit(schema, place, call) {
  if (typeof schema !== 'object') return;
  call(schema, place);
  for (const [key, child] of Object.entries(schema.properties ?? {})) visit(child, `${place}.${key}`, call);
  for (const [key, child] of Object.entries(schema.patternProperties ?? {})) visit(child, `${place}.{${key}}`, call);
  if (schema.items) visit(schema.items, `${place}[]`, call);
}
