import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { jsYamlAsItIsFast, refuseNodeBuiltins } from '../bundle-options.mjs';

/**
 * The page reads back what it wrote itself, so that the fast parser does: the general one, which mends broken texts,
 * would double the page. It is replaced by one that gives up, which the engine tells as an error of the text.
 */
const fastParserAlone = {
  name: 'fast parser alone',
  setup(bundle) {
    bundle.onResolve({ filter: /\/general\.ts$/ }, () => ({ path: 'none', namespace: 'no-general-parser' }));
    bundle.onLoad({ filter: /.*/, namespace: 'no-general-parser' }, () => ({
      contents: 'export const readGenerally = () => { throw new RangeError("no general parser here"); };',
    }));
  },
};

/** `page.ts`: script and style of the field page with the hashes by which its policy admits them. */
export async function writeFieldPage(root) {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: ['server/src/field/main.ts'],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    charset: 'ascii',
    legalComments: 'none',
    plugins: [fastParserAlone, jsYamlAsItIsFast, refuseNodeBuiltins],
  });
  const script = outputFiles[0].text.trim();
  const style = readFileSync(join(root, 'server/src/field/style.css'), 'utf8').trim();
  if (/<\/script|<!--/i.test(script)) throw new Error('the script of the field page would end its own element');
  return `// Generated from server/src/field/ by build/generate.mjs; do not edit.
export const SCRIPT = ${JSON.stringify(script)};
export const SCRIPT_HASH = '${hash(script)}';
export const STYLE = ${JSON.stringify(style)};
export const STYLE_HASH = '${hash(style)}';
`;
}

function hash(text) {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}
