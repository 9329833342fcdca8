// Bundles what is shipped into dist/: `node build/bundle.mjs`, after `node build/generate.mjs`.
import { readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { jsYamlAsItIsFast, refuseNodeBuiltins } from './bundle-options.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));

const common = {
  absWorkingDir: ROOT,
  bundle: true,
  minify: true,
  keepNames: false,
  sourcemap: false,
  logLevel: 'warning',
  target: 'es2022',
  plugins: [jsYamlAsItIsFast],
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
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
};

const browser = {
  ...common,
  platform: 'browser',
  // Fails on any Node built-in, also on one that a library asks for in passing.
  plugins: [...common.plugins, refuseNodeBuiltins],
};
const extension = { ...common, format: 'cjs', external: ['vscode'] };

const TARGETS = {
  cli: { ...node, entryPoints: { cli: 'server/src/entry/cli.ts' } },
  // One file, so that the extension's package is a short list.
  'language-server': {
    ...node,
    splitting: false,
    entryPoints: { 'language-server': 'server/src/entry/language-node.ts' },
  },
  'language-worker': {
    ...browser,
    format: 'iife',
    entryPoints: { 'language-worker': 'server/src/entry/language-worker.ts' },
    outdir: 'dist',
  },
  extension: {
    ...extension,
    platform: 'node',
    entryPoints: ['client/src/desktop/extension.ts'],
    outfile: 'dist/extension.cjs',
  },
  'extension-web': {
    ...browser,
    ...extension,
    platform: 'browser',
    plugins: browser.plugins,
    entryPoints: ['client/src/web/extension.ts'],
    // The editor in the browser puts `.js` behind any other ending.
    outfile: 'dist/extension-web.js',
  },
};

// `node build/bundle.mjs language-server` bundles that alone and leaves the rest as it is.
const asked = process.argv.slice(2);
if (asked.length === 0) rmSync(join(ROOT, 'dist'), { recursive: true, force: true });
await Promise.all((asked.length > 0 ? asked : Object.keys(TARGETS)).map((name) => build(TARGETS[name])));
