// Bundles what is shipped into dist/: `node build/bundle.mjs`, after `node build/generate.mjs`.
import { readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));

const common = {
  absWorkingDir: ROOT,
  bundle: true,
  minify: true,
  keepNames: false,
  sourcemap: false,
  logLevel: 'warning',
  // js-yaml builds its state by spread, which the compiler of V8 handles badly in its native form.
  target: 'es2022',
  supported: { 'object-rest-spread': false },
  define: { SETPROOF_VERSION: JSON.stringify(version) },
};

const node = {
  ...common,
  platform: 'node',
  format: 'esm',
  splitting: true,
  outdir: 'dist',
  chunkNames: 'chunks/[name]-[hash]',
  // Libraries in CommonJS call `require`, which an ES module has to be given.
  banner: { js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);" },
};

rmSync(join(ROOT, 'dist'), { recursive: true, force: true });
await build({ ...node, entryPoints: { cli: 'server/src/entry/cli.ts' } });
