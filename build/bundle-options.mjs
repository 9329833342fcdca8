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

/**
 * `yaml` is asked only where the fast parser gives up, which is seldom, and getting it ready takes longer than the check
 * of a file: so that is done at the first call of one of its functions.
 */
export const yamlWhenNeeded = {
  name: 'yaml when needed',
  setup(build) {
    build.onResolve({ filter: /^yaml$/ }, ({ namespace, resolveDir }) =>
      namespace === 'when-needed' ? undefined : { path: 'yaml', namespace: 'when-needed', pluginData: resolveDir },
    );
    build.onLoad({ filter: /^yaml$/, namespace: 'when-needed' }, async ({ pluginData: resolveDir }) => {
      const names = Object.keys(await import('yaml')).filter((name) => /^(?:is|parse)[A-Z]/.test(name));
      const calls = names.map((name) => `export const ${name} = (...given) => library().${name}(...given);`);
      return { contents: `const library = () => require('yaml');\n${calls.join('\n')}`, resolveDir, loader: 'js' };
    });
  },
};

/** commander can run other programs for its commands; ours are none, and what Node needs for that is slow to load. */
export const noProgramsForCommander = {
  name: 'no programs for commander',
  setup(build) {
    build.onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      /[\\/]commander[\\/]/.test(importer) ? { path: 'child_process', namespace: 'none' } : undefined,
    );
    build.onLoad({ filter: /.*/, namespace: 'none' }, () => ({ contents: 'module.exports = {};' }));
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

/** Adds to a set what a bundle holds at least a byte of. */
export function notingInputs(inputs) {
  return {
    name: 'note what goes in',
    setup(build) {
      build.initialOptions.metafile = true;
      build.onEnd(({ metafile }) => {
        const parts = Object.values(metafile?.outputs ?? {}).flatMap((output) => Object.entries(output.inputs));
        for (const [path, { bytesInOutput }] of parts) if (bytesInOutput > 0) inputs.add(path);
      });
    },
  };
}
