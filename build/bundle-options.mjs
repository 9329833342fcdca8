import { readFile } from 'node:fs/promises';
import { builtinModules } from 'node:module';
import { transform } from 'esbuild';

/**
 * js-yaml builds its parser's state by object spread, which V8 handles badly: written out, it parses twice as fast. Our
 * own code, which spreads small objects, is better off with the native form, so the library alone is lowered.
 */
export const jsYamlAsItIsFast = {
  name: 'js-yaml as it is fast',
  setup(build) {
    build.onLoad({ filter: /[\\/]js-yaml[\\/]dist[\\/].*\.mjs$/ }, async ({ path }) => {
      const source = await readFile(path, 'utf8');
      const { code } = await transform(source, { target: 'es2022', supported: { 'object-rest-spread': false } });
      return { contents: code, loader: 'js' };
    });
  },
};

const BUILTINS = new Set(builtinModules.flatMap((name) => [name, `node:${name}`]));

/** What runs in a browser may ask for no module of Node, not even in a branch that is never taken. */
export const refuseNodeBuiltins = {
  name: 'refuse Node built-ins',
  setup(build) {
    build.onResolve({ filter: /.*/ }, ({ path, importer }) =>
      BUILTINS.has(path)
        ? { errors: [{ text: `${importer} asks for '${path}', which a browser has not` }] }
        : undefined,
    );
  },
};
