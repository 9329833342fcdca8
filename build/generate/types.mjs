import { mapValues } from './flatten.mjs';

const HEAD = '// Generated from schemas/ by build/generate.mjs; do not edit.\n';
const OPTIONS = { bannerComment: '', additionalProperties: false, format: false };

/** `documents.ts`: a type for each kind of document, as a validator accepts it. */
export async function writeTypes(documents) {
  // Loaded here because it takes longer to load than a bad schema takes to be refused.
  const { compile } = await import('json-schema-to-typescript');
  const kinds = [...documents];
  const texts = await Promise.all(kinds.map(([kind, schema]) => compile(typed(schema), capital(kind), OPTIONS)));
  return [HEAD, ...texts].join('\n');
}

const capital = (kind) => kind[0].toUpperCase() + kind.slice(1);

/** Without titles, each of which would become a named type, and without x_ keys, which would open every map. */
function typed(schema) {
  if (typeof schema !== 'object') return schema;
  const { type, enum: values, required, description, properties, items, patternProperties = {} } = schema;
  const open = Object.entries(patternProperties).find(([pattern]) => pattern !== '^x_');
  const result = { type, description, additionalProperties: open ? typed(open[1]) : false };
  if (values) result.enum = values;
  if (required) result.required = required;
  if (properties) result.properties = mapValues(properties, typed);
  if (items) result.items = typed(items);
  return result;
}
