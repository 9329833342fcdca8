// What a whole repository costs: time and peak memory next to bare event parsing of the same files in the same run.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeWells } from './wells.mjs';

const ROOT = join(import.meta.dirname, '../..');
const CLI = join(ROOT, 'dist/cli.js');
/** Tells at its end what memory a process had at most, and the time that it used, in a line on standard error. */
const METER =
  'data:text/javascript,import { isMainThread } from "node:worker_threads"; if (isMainThread) process.on("exit", () => ' +
  '{ const u = process.resourceUsage(); process.stderr.write(["\\nmeter", u.maxRSS, u.userCPUTime + u.systemCPUTime + "\\n"].join(" ")); });';

/** @param counts how many wells, few and many */
export function scaleRows(counts) {
  const [few, many] = counts.map(measure);
  const [less, more] = counts.map((count) => count.toLocaleString('en'));
  return [
    {
      id: 'fleet',
      work: `${more} installations that share fifty data sheets, two jobs`,
      ms: many.two.ms,
      beside: { name: 'js-yaml’s events alone', ms: many.events.ms },
      also: [{ name: 'one job', ms: many.one.ms }],
      goal: { ratio: 1.2 },
    },
    { id: 'peak', work: 'the same, most memory, one job', megabytes: many.one.megabytes, goal: { megabytes: 250 } },
    {
      id: 'growth',
      work: `processor time a file, ${more} installations`,
      ms: many.one.cpu / many.files,
      beside: { name: `a file of ${less}`, ms: few.one.cpu / few.files },
      goal: { ratio: 1.1 },
    },
  ];
}

function measure(count) {
  const folder = mkdtempSync(join(tmpdir(), 'setproof-scale-'));
  try {
    writeWells(folder, count);
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      /\.yaml$/.test(name),
    ).length;
    const check = (jobs) =>
      metered([CLI, 'check', '--jobs', jobs, '--today', '2026-11-25', '--output', '/dev/null'], folder);
    const events = metered(['--input-type=module', '-e', PARSING], folder);
    return { files, events, one: check('1'), two: check('2') };
  } finally {
    rmSync(folder, { recursive: true, force: true });
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
