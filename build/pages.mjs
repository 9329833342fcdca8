// Writes the generated pages of docs/: `npm run pages`. A test fails when they differ from what this would write.
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { commandsPage } from './commands-page.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const scratch = mkdtempSync(join(tmpdir(), 'setproof-pages-'));
const outfile = join(scratch, 'pages.mjs');

try {
  await build({
    absWorkingDir: ROOT,
    stdin: {
      contents: `export { CATALOGUE } from './server/src/engine/index.ts';
export { checkPages } from './server/src/render/markdown/check-pages.ts';
export { referencePages } from './server/src/render/markdown/reference-pages.ts';`,
      resolveDir: ROOT,
      loader: 'ts',
    },
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    logLevel: 'warning',
  });
  const { CATALOGUE, checkPages, referencePages } = await import(outfile);
  writePages('docs/checks', checkPages(CATALOGUE));
  writePages('docs/reference', [...referencePages(), commandsPage(ROOT)]);
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

/** Writes the pages, and takes away those of what is no more. */
function writePages(name, pages) {
  const folder = join(ROOT, name);
  mkdirSync(folder, { recursive: true });
  for (const { path, text } of pages) writeFileSync(join(folder, path), text);
  const kept = new Set(pages.map(({ path }) => path));
  for (const name of readdirSync(folder)) if (!kept.has(name)) rmSync(join(folder, name));
  console.log(`${pages.length} pages in ${name}/`);
}
