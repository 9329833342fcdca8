// A program for Node as scripts that the code cache can hold, and the small modules that start it.
import { basename } from 'node:path';
import { build, transform } from 'esbuild';

const EXECUTABLE = 0o755;

/**
 * The files of a program: `dist/chunks/NAME/PART-HASH.cjs` for each part that is loaded by itself, and a
 * `dist/STARTER.js` for each starter, which loads its entry.
 */
export async function filesOfProgram(name, starters, common) {
  const { outputFiles, metafile } = await build({
    ...common,
    // Only modules are taken apart by what loads them, so that nothing is read that a command does not need.
    entryPoints: Object.fromEntries(Object.entries(starters).map(([starter, { entry }]) => [starter, entry])),
    platform: 'node',
    format: 'esm',
    splitting: true,
    metafile: true,
    write: false,
    outdir: `dist/chunks/${name}`,
    // Named by their content: V8 knows a cache's script by its length alone.
    entryNames: '[name]-[hash]',
    chunkNames: '[name]-[hash]',
    outExtension: { '.js': '.cjs' },
    define: { ...common.define, 'import.meta.url': '__programUrl' },
  });
  const parts = outputFiles.map(async ({ path, text }) => ({ path, text: await scriptOf(text, common) }));
  const entries = new Map(
    Object.entries(metafile.outputs).map(([path, { entryPoint }]) => [entryPoint, basename(path)]),
  );
  const starting = Object.entries(starters).map(([starter, { entry, command, keeps }]) =>
    starterOf(starter, `start('./chunks/${name}', '${entries.get(entry)}', ${command}, ${keeps});`, common),
  );
  return Promise.all([...parts, ...starting]);
}

/** A module as a script that is a function, called as those of Node are, with the program's address besides. */
async function scriptOf(module, { minify, target }) {
  const { code } = await transform(module, {
    format: 'cjs',
    platform: 'node',
    minify,
    target,
    supported: { 'dynamic-import': false },
  });
  return inAscii(`(function (exports, require, module, __programUrl) {${code}})`);
}

/** Spells what the bundler leaves in expressions and tagged templates: a text of single bytes is read fastest. */
function inAscii(script) {
  if (/\\[^\0-\x7f]/.test(script)) throw new Error('a character outside ASCII stands behind a backslash');
  return script.replace(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

async function starterOf(name, call, common) {
  const { outputFiles } = await build({
    ...common,
    stdin: {
      contents: `import { start } from './cached.ts';\n${call}`,
      resolveDir: `${common.absWorkingDir}/server/src/entry`,
      loader: 'ts',
    },
    platform: 'node',
    // A module takes Node a fifth of its own start longer to get going.
    format: 'cjs',
    banner: { js: '#!/usr/bin/env node' },
    write: false,
    outfile: `dist/${name}.js`,
  });
  const [{ path, text }] = outputFiles;
  return { path, text, mode: EXECUTABLE };
}
