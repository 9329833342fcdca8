// `npm run bench`: what the program costs, next to its floors and peers in the same run. Ratios and medians, no verdicts.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { jsYamlAsItIsFast } from '../../build/bundle-options.mjs';
import { scale } from './scale.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '../..');
const SAMPLES = join(ROOT, 'samples');
const WELL = process.argv[2] ?? join(SAMPLES, 'pad-a/qm-a1.yaml');
const scratch = mkdtempSync(join(tmpdir(), 'setproof-bench-'));

try {
  const engine = await bundled();
  warmFile(engine);
  manyFiles(engine);
  coldStart();
  scale();
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

async function bundled() {
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

function warmFile({ onWarmFile }) {
  const peers = onWarmFile(WELL, SAMPLES);
  const times = peers.map(() => []);
  for (let turn = 0; turn < 1500; turn++) {
    for (const [at, peer] of peers.entries()) times[at].push(timed(() => peer.run(turn)));
  }
  const rows = peers.map((peer, at) => ({ name: peer.name, ms: median(times[at].slice(-800)) }));
  print('one file, warm', rows, 'yaml + compiled schema');
}

function manyFiles({ manyWells, checkAll, parseAll, parseAllGenerally }) {
  const changes = manyWells(WELL, SAMPLES, 1000);
  const of = (run) => median([0, 1, 2].map(() => timed(run)));
  print(
    'a thousand installations that share their data sheets',
    [
      { name: 'setproof, read and check', ms: of(() => checkAll(changes, SAMPLES)) },
      { name: 'yaml, parsing alone', ms: of(() => parseAllGenerally(changes)) },
      { name: 'js-yaml events alone', ms: of(() => parseAll(changes)) },
    ],
    'js-yaml events alone',
  );
}

function coldStart() {
  const node = (...args) => execFileSync(process.execPath, args, { cwd: SAMPLES, stdio: 'ignore' });
  const runs = { 'setproof check FILE': [], 'node -e 0': [] };
  for (let turn = 0; turn < 15; turn++) {
    runs['setproof check FILE'].push(timed(() => node(join(ROOT, 'dist/cli.js'), 'check', WELL)));
    runs['node -e 0'].push(timed(() => node('-e', '0')));
  }
  print(
    'cold start',
    Object.entries(runs).map(([name, times]) => ({ name, ms: median(times) })),
    'node -e 0',
  );
}

function timed(run) {
  const start = performance.now();
  run();
  return performance.now() - start;
}

function median(times) {
  return [...times].sort((a, b) => a - b)[times.length >> 1];
}

function print(title, rows, floor) {
  const base = rows.find(({ name }) => name === floor).ms;
  console.log(`\n${title}`);
  for (const { name, ms } of rows) {
    console.log(
      `  ${name.padEnd(32)} ${ms.toFixed(3).padStart(10)} ms   ${(ms / base).toFixed(2).padStart(7)} × ${floor}`,
    );
  }
}
