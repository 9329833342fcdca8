// Writes the generated pages of docs/: `npm run pages`. A test fails when they differ from what this would write.
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const CHECKS = join(ROOT, 'docs/checks');
const scratch = mkdtempSync(join(tmpdir(), 'setproof-pages-'));
const outfile = join(scratch, 'pages.mjs');

try {
  await build({
    absWorkingDir: ROOT,
    stdin: {
      contents: `export { CATALOGUE } from './server/src/engine/index.ts';
export { checkPages } from './server/src/render/markdown/check-pages.ts';`,
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
  const { CATALOGUE, checkPages } = await import(outfile);
  writePages(checkPages(CATALOGUE));
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

/** Writes the pages, and takes away those of checks that are no more. */
function writePages(pages) {
  mkdirSync(CHECKS, { recursive: true });
  for (const { path, text } of pages) writeFileSync(join(CHECKS, path), text);
  const kept = new Set(pages.map(({ path }) => path));
  for (const name of readdirSync(CHECKS)) if (!kept.has(name)) rmSync(join(CHECKS, name));
  console.log(`${pages.length} pages in docs/checks/`);
}
