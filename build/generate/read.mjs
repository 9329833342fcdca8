import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

export const DOCUMENT_KINDS = [
  'installation',
  'pump',
  'motor',
  'cable',
  'transformer',
  'drive',
  'gauge',
  'readings',
  'policy',
];

export const VOCABULARY_FILE = 'vocabulary.schema.json';

/** What is wrong with the schemas, a line each. */
export class SchemaError extends Error {
  constructor(problems) {
    super(problems.join('\n'));
  }
}

/** All schemas of the folder by file name; the JSON outputs' own stay out, since nothing is generated from them. */
export function readSchemas(folder) {
  const names = readdirSync(folder).filter((name) => name.endsWith('.schema.json') && !name.includes('-output.'));
  const needed = [VOCABULARY_FILE, ...DOCUMENT_KINDS.map((kind) => `${kind}.schema.json`)];
  const absent = needed.filter((name) => !names.includes(name));
  if (absent.length > 0) throw new SchemaError(absent.map((name) => `${name}: is missing in ${folder}.`));
  return new Map(names.sort().map((name) => [name, parse(name, readFileSync(join(folder, name), 'utf8'))]));
}

function parse(name, text) {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new SchemaError([`${name}: is not JSON: ${error.message}`]);
  }
}

/** What the engine knows of quantities: the names of their kinds, and a range of texts as numbers. */
export async function readQuantities(engine) {
  const { outputFiles } = await build({
    stdin: {
      contents: `export { KINDS } from './quantity/kinds.ts';\nexport { rangeOf } from './format/range.ts';`,
      resolveDir: engine,
      loader: 'ts',
    },
    bundle: true,
    format: 'esm',
    write: false,
  });
  const { KINDS, rangeOf } = await import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
  return { kindNames: Object.keys(KINDS), rangeOf };
}
