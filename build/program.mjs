// A program for Node as one script that the code cache can hold, and the small modules that start it.
import { createHash } from 'node:crypto';
import { chmod, mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'esbuild';

const EXECUTABLE = 0o755;

/** Writes `dist/chunks/NAME-HASH.cjs` and a `dist/STARTER.js` for each starter, which runs it. */
export async function buildProgram(name, { entry, starters }, common) {
  const dist = join(common.absWorkingDir, 'dist');
  const chunks = join(dist, 'chunks');
  await mkdir(chunks, { recursive: true });
  for (const old of await readdir(chunks)) if (old.startsWith(`${name}-`)) await rm(join(chunks, old), { force: true });
  const script = await scriptOf(entry, common);
  // Named by its content: V8 knows a cache's script by its length alone.
  const path = `./chunks/${name}-${createHash('sha256').update(script).digest('hex').slice(0, 12)}.cjs`;
  await writeFile(join(dist, path), script);
  for (const [starter, keeps] of Object.entries(starters)) {
    await buildStarter(join(dist, `${starter}.js`), path, keeps, common);
  }
}

async function scriptOf(entry, common) {
  const { outputFiles } = await build({
    ...common,
    entryPoints: [entry],
    platform: 'node',
    format: 'cjs',
    write: false,
    define: { ...common.define, 'import.meta.url': '__programUrl' },
    banner: { js: '(function (exports, require, module, __programUrl) {' },
    footer: { js: '})' },
  });
  return inAscii(outputFiles[0].text);
}

/** Spells what the bundler leaves in expressions and tagged templates: a text of single bytes is read fastest. */
function inAscii(script) {
  if (/\\[^\0-\x7f]/.test(script)) throw new Error('a character outside ASCII stands behind a backslash');
  return script.replace(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

async function buildStarter(outfile, path, keeps, common) {
  await build({
    ...common,
    stdin: {
      contents: `import { start } from './cached.ts';\nstart('${path}', import.meta.url, ${keeps});`,
      resolveDir: join(common.absWorkingDir, 'server/src/entry'),
      loader: 'ts',
    },
    platform: 'node',
    format: 'esm',
    banner: { js: '#!/usr/bin/env node' },
    outfile,
  });
  await chmod(outfile, EXECUTABLE);
}
