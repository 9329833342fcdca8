import { Ajv2020 } from 'ajv/dist/2020.js';
import standaloneCode from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';
import { mapValues } from './flatten.mjs';
import { countParts } from './share.mjs';

const HEAD = '// Generated from schemas/ by build/generate.mjs; do not edit.\n';

export const VALIDATOR_TYPES = `${HEAD}import type { DocumentKind } from '../shape.ts';

export interface SchemaError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

/** Whether the value keeps to the schema; if not, \`errors\` holds what is wrong until the next call. */
export interface Validator {
  (value: unknown): boolean;
  readonly errors?: readonly SchemaError[] | null;
}

export const VALIDATORS: Readonly<Record<DocumentKind, Validator>>;
`;

const VALIDATING = ['type', 'enum', 'minimum', 'maximum', 'required', 'additionalProperties'];

/** `validators.js`: one bundled module without imports, so that the pure engine can use it in any host. */
export async function writeValidators(documents) {
  const kinds = [...documents.keys()];
  const ajv = new Ajv2020({
    schemas: shareParts(kinds, [...documents.values()].map(bare)),
    strict: true,
    allErrors: true,
    verbose: false,
    messages: false,
    inlineRefs: false,
    allowUnionTypes: true,
    code: { source: true, esm: true, lines: false },
  });
  const code = standaloneCode(ajv, Object.fromEntries(kinds.map((kind) => [kind, kind])));
  return bundle(`${code}\nexport const VALIDATORS = { ${kinds.join(', ')} };\n`);
}

async function bundle(contents) {
  const stdin = { contents, resolveDir: import.meta.dirname, loader: 'js' };
  const { outputFiles } = await build({
    stdin,
    bundle: true,
    format: 'esm',
    platform: 'neutral',
    minify: true,
    write: false,
  });
  const text = outputFiles[0].text;
  if (/\brequire\(/.test(text)) throw new Error('The bundled validators still call require().');
  return HEAD + text;
}

/** A schema with nothing but what decides; texts would only tell equal parts apart. */
function bare(schema) {
  if (typeof schema !== 'object') return schema;
  const result = {};
  for (const keyword of VALIDATING) if (schema[keyword] !== undefined) result[keyword] = schema[keyword];
  for (const group of ['properties', 'patternProperties']) {
    if (schema[group]) result[group] = mapValues(schema[group], bare);
  }
  if (schema.items) result.items = bare(schema.items);
  return result;
}

function childrenOf(schema) {
  if (typeof schema !== 'object') return [];
  const children = [...Object.values(schema.properties ?? {}), ...Object.values(schema.patternProperties ?? {})];
  return schema.items ? [...children, schema.items] : children;
}

/** The schemas with each map that stands more than once moved to one of its own, or the code triples. */
function shareParts(kinds, schemas) {
  const counts = countParts(schemas, childrenOf);
  const shared = new Map();
  const share = (schema) => {
    const text = JSON.stringify(schema);
    if (schema.properties === undefined || counts.get(text) === 1) return withChildren(schema, share);
    if (!shared.has(text)) shared.set(text, { ...withChildren(schema, share), $id: `part-${shared.size}` });
    return { $ref: shared.get(text).$id };
  };
  const roots = schemas.map((schema, index) => ({ ...withChildren(schema, share), $id: kinds[index] }));
  return [...shared.values(), ...roots];
}

function withChildren(schema, change) {
  if (typeof schema !== 'object') return schema;
  const result = { ...schema };
  for (const group of ['properties', 'patternProperties']) {
    if (schema[group]) result[group] = mapValues(schema[group], change);
  }
  if (schema.items) result.items = change(schema.items);
  return result;
}
