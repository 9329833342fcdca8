// Bundles what is shipped into dist/: `node build/bundle.mjs`, after `node build/generate.mjs`.
import { readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { jsYamlAsItIsFast, refuseNodeBuiltins } from './bundle-options.mjs';
import { makeCaches } from './code-cache.mjs';
import { buildProgram } from './program.mjs';

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

const browser = {
  ...common,
  platform: 'browser',
  // Fails on any Node built-in, also on one that a library asks for in passing.
  plugins: [...common.plugins, refuseNodeBuiltins],
};
const extension = { ...common, format: 'cjs', external: ['vscode'] };

/** What Node runs: a script each, and the files that start it. */
const PROGRAMS = {
  cli: {
    entry: 'server/src/entry/program.ts',
    // Only a check compiles what later runs are to find compiled.
    starters: { cli: "process.argv[2] === 'check'", 'check-worker': 'false' },
  },
  'language-server': { entry: 'server/src/entry/language-node.ts', starters: { 'language-server': 'true' } },
};

const TARGETS = {
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
  panel: {
    ...browser,
    format: 'iife',
    entryPoints: { panel: 'client/webview/panel.ts' },
    outdir: 'dist',
  },
};

// `node build/bundle.mjs language-server` bundles that alone and leaves the rest as it is.
const asked = process.argv.slice(2);
if (asked.length === 0) rmSync(join(ROOT, 'dist'), { recursive: true, force: true });
const names = asked.length > 0 ? asked : [...Object.keys(PROGRAMS), ...Object.keys(TARGETS)];
await Promise.all(
  names.map((name) => (name in PROGRAMS ? buildProgram(name, PROGRAMS[name], common) : build(TARGETS[name]))),
);
const made = names.filter((name) => name in PROGRAMS);
if (made.length > 0) await makeCaches(join(ROOT, 'dist'), made, join(ROOT, 'samples/pad-a/qm-a1.yaml'));
