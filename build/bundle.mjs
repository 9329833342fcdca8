// Bundles what is shipped into dist/: `node build/bundle.mjs`, after `node build/generate.mjs`.
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import {
  jsYamlAsItIsFast,
  noProgramsForCommander,
  notingInputs,
  refuseNodeBuiltins,
  yamlWhenNeeded,
} from './bundle-options.mjs';
import { makeCaches } from './code-cache.mjs';
import { placeFiles, removeOthers } from './place.mjs';
import { filesOfProgram } from './program.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));

/** What went into the bundles, by which `build/notices.mjs` knows whose licences go with them. */
const inputs = new Set();

const common = {
  absWorkingDir: ROOT,
  bundle: true,
  minify: true,
  keepNames: false,
  sourcemap: false,
  logLevel: 'warning',
  target: 'es2022',
  plugins: [jsYamlAsItIsFast, yamlWhenNeeded, noProgramsForCommander, notingInputs(inputs)],
  define: { SETPROOF_VERSION: JSON.stringify(version) },
};

const browser = {
  ...common,
  platform: 'browser',
  // Fails on any Node built-in, also on one that a library asks for in passing.
  plugins: [...common.plugins, refuseNodeBuiltins],
};
const extension = { ...common, format: 'cjs', external: ['vscode'] };

/** Commands that are worth code caches of their own; the others take those of a check. */
const CACHED = "['check', 'worksheet', 'checklist'].includes(process.argv[2])";

/** What Node runs: each program with its starters, as which command each of them starts, and whether that is kept. */
const PROGRAMS = {
  cli: {
    cli: { entry: 'server/src/entry/cli.ts', command: `${CACHED} ? process.argv[2] : 'check'`, keeps: CACHED },
    'check-worker': { entry: 'server/src/entry/check-worker.ts', command: "'check'", keeps: false },
  },
  'language-server': {
    'language-server': { entry: 'server/src/entry/language-node.ts', command: "'serve'", keeps: true },
  },
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

const DIST = join(ROOT, 'dist');

async function filesOf(name) {
  if (name in PROGRAMS) return filesOfProgram(name, PROGRAMS[name], common);
  const { outputFiles } = await build({ ...TARGETS[name], write: false });
  return outputFiles.map(({ path, text }) => ({ path, text }));
}

// `node build/bundle.mjs language-server` bundles that alone and leaves the rest as it is.
const asked = process.argv.slice(2);
const names = asked.length > 0 ? asked : [...Object.keys(PROGRAMS), ...Object.keys(TARGETS)];
const files = (await Promise.all(names.map(filesOf))).flat();
// Node takes the starters for modules otherwise, as the package says.
files.push({ path: join(DIST, 'package.json'), text: '{ "type": "commonjs" }\n' });
if (asked.length === 0) files.push({ path: join(DIST, 'inputs.json'), text: JSON.stringify([...inputs].sort()) });
await placeFiles(files);
if (asked.length === 0) await removeOthers(DIST, files);
const made = names.filter((name) => name in PROGRAMS);
if (made.length > 0) await makeCaches(DIST, made, join(ROOT, 'samples/pad-a/qm-a1.yaml'));
