// Writes what the engine reads of the schemas: shapes, validators and types. Run by `npm run generate`.
//   node build/generate.mjs [--schemas DIR] [--output DIR]
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { flattenDocument } from './generate/flatten.mjs';
import { judgeFiles, judgeFlattened } from './generate/judge.mjs';
import { generateMedia } from './generate/media.mjs';
import { DOCUMENT_KINDS, readQuantities, readSchemas, SchemaError } from './generate/read.mjs';
import { writeShapes } from './generate/shapes.mjs';
import { writeTypes } from './generate/types.mjs';
import { VALIDATOR_TYPES, writeValidators } from './generate/validators.mjs';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

function readOptions() {
  const { values } = parseArgs({ options: { schemas: { type: 'string' }, output: { type: 'string' } } });
  return {
    schemas: values.schemas ?? join(ROOT, 'schemas'),
    output: values.output ?? join(ROOT, 'server/src/engine/format/generated'),
  };
}

function flattenAll(folder, quantities) {
  const files = readSchemas(folder);
  judgeFiles(files);
  const documents = new Map(DOCUMENT_KINDS.map((kind) => [kind, flattenDocument(files, kind)]));
  judgeFlattened(documents, quantities);
  return documents;
}

async function generate({ schemas, output }) {
  const quantities = await readQuantities(join(ROOT, 'server/src/engine'));
  const documents = flattenAll(schemas, quantities);
  const texts = {
    'shapes.ts': writeShapes(documents, quantities),
    'validators.js': await writeValidators(documents),
    'validators.d.ts': VALIDATOR_TYPES,
    'documents.ts': await writeTypes(documents),
  };
  mkdirSync(output, { recursive: true });
  for (const [name, text] of Object.entries(texts)) writeFileSync(join(output, name), text);
}

try {
  const options = readOptions();
  await generate(options);
  // Fonts and page belong to this tree; a test that generates elsewhere wants the schemas alone.
  if (options.output.startsWith(ROOT)) await generateMedia(ROOT);
} catch (error) {
  if (!(error instanceof SchemaError)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
