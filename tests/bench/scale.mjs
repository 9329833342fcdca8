// What a whole repository costs: `node tests/bench/scale.mjs [WELLS...]`, after a build. Time, peak memory, and the ratio to
// bare event parsing of the same files in the same run. `npm run bench` takes few wells; 10 000 take minutes.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writeWells } from './wells.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '../..');
const USUAL = [200, 2000];
/** Tells at its end what memory a process had at most, and the time that it used, in a line on standard error. */
const METER =
  'data:text/javascript,import { isMainThread } from "node:worker_threads"; if (isMainThread) process.on("exit", () => ' +
  '{ const u = process.resourceUsage(); process.stderr.write(["\\nmeter", u.maxRSS, u.userCPUTime + u.systemCPUTime + "\\n"].join(" ")); });';

/** Prints a row for each way of going through each number of wells. */
export function scale(counts = USUAL) {
  console.log('\nrepositories of wells that share fifty data sheets');
  for (const count of counts) {
    const folder = mkdtempSync(join(tmpdir(), 'setproof-scale-'));
    try {
      writeWells(folder, count);
      const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => /\.yaml$/.test(name));
      const floor = metered(['--input-type=module', '-e', PARSING], folder);
      print(`${count} wells, events alone`, floor, files.length, floor);
      for (const jobs of ['1', '2']) {
        const cli = join(ROOT, 'dist/cli.js');
        const run = metered([cli, 'check', '--jobs', jobs, '--today', '2026-11-25', '--output', '/dev/null'], folder);
        print(`${count} wells, check --jobs ${jobs}`, run, files.length, floor);
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
}

const PARSING = `import { readdirSync, readFileSync } from 'node:fs';
import { parseEvents } from ${JSON.stringify(join(ROOT, 'node_modules/js-yaml/dist/js-yaml.mjs'))};
for (const name of readdirSync('.', { recursive: true })) if (name.endsWith('.yaml')) parseEvents(readFileSync(name, 'utf8'), {});`;

function metered(args, cwd) {
  const start = performance.now();
  const { stderr, status } = spawnSync(process.execPath, ['--import', METER, ...args], {
    ...{ cwd, encoding: 'utf8', maxBuffer: 1 << 28 },
  });
  const [, memory, cpu] = /\nmeter (\d+) (\d+)\n/.exec(stderr) ?? [];
  if (status === null || status > 1 || memory === undefined) throw new Error(`a run of the bench failed:\n${stderr}`);
  return { ms: performance.now() - start, cpu: Number(cpu) / 1000, megabytes: Number(memory) / 1024 };
}

function print(name, { ms, cpu, megabytes }, files, floor) {
  const columns = [
    `${(ms / 1000).toFixed(2).padStart(8)} s`,
    `${(cpu / files).toFixed(2).padStart(7)} ms of processor a file`,
    `${megabytes.toFixed(0).padStart(5)} MB at most`,
    `${(ms / floor.ms).toFixed(2).padStart(7)} × events alone`,
  ];
  console.log(`  ${name.padEnd(30)} ${columns.join('  ')}`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const counts = process.argv.slice(2).map(Number);
  scale(counts.length > 0 ? counts : USUAL);
}
