// `npm run bench`: what the program costs, next to its floors and peers in the same run; the table goes into
// docs/performance.md. With --full the repositories are as large as the goals say, which takes most of an hour.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { jsYamlAsItIsFast } from '../../build/bundle-options.mjs';
import { coldRows, extensionRow } from './cold.mjs';
import { languageRows } from './language.mjs';
import { machineNow, performancePage } from './page.mjs';
import { scaleRows } from './scale.mjs';
import { warmRows } from './warm.mjs';

const ROOT = join(import.meta.dirname, '../..');
const SAMPLES = join(ROOT, 'samples');
const COUNTS = process.argv.includes('--full') ? [10_000, 50_000] : [200, 1000];
const scratch = mkdtempSync(join(tmpdir(), 'setproof-bench-'));

try {
  const place = { root: ROOT, well: join(SAMPLES, 'pad-a/qm-a1.yaml'), scratch };
  const before = machineNow();
  const rows = [
    ...warmRows(await bundledEngine(), place.well, SAMPLES),
    ...(await languageRows(place)),
    ...coldRows(place),
    ...scaleRows(COUNTS),
    extensionRow(ROOT),
  ];
  const page = performancePage(rows, [before, machineNow()]);
  writeFileSync(join(ROOT, 'docs/performance.md'), page);
  console.log(page);
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

async function bundledEngine() {
  const outfile = join(scratch, 'engine.mjs');
  await build({
    absWorkingDir: ROOT,
    entryPoints: ['tests/bench/engine.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'es2022',
    plugins: [jsYamlAsItIsFast],
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
  });
  return import(outfile);
}
