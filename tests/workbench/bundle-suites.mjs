import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const HERE = dirname(fileURLToPath(import.meta.url));
const OUT = join(HERE, '../../out/workbench');

/** The suites as single files, which is how an extension host takes them. */
export async function bundleSuites() {
  const suites = {
    node: { platform: 'node', entryPoints: [join(HERE, 'suite/node.ts')], outfile: join(OUT, 'suite-node.cjs') },
    web: { platform: 'browser', entryPoints: [join(HERE, 'suite/web.ts')], outfile: join(OUT, 'suite-web.js') },
  };
  const common = { bundle: true, format: 'cjs', external: ['vscode'], target: 'es2022', logLevel: 'warning' };
  await Promise.all(Object.values(suites).map((each) => build({ ...common, ...each })));
  return { node: suites.node.outfile, web: suites.web.outfile };
}
