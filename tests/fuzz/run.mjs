// `npm run fuzz -- [--minutes N] [--seed N]`: spoils documents without end and lets the engine have them. What breaks is written to
// tests/fuzz/corpus/, where the tests try it from then on.
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';

const HERE = dirname(fileURLToPath(import.meta.url));
const ROOT = join(HERE, '../..');
const { values: options } = parseArgs({
  options: { minutes: { type: 'string', default: '60' }, seed: { type: 'string', default: String(Date.now()) } },
});

/** The promise is an answer within two seconds, ms. */
const LONGEST = 2000;

const { Chance, spoilt, faultsWith, timeFor, projects, seeds } = await bundled();
const until = Date.now() + Number(options.minutes) * 60_000;
const chance = new Chance(Number(options.seed));
const [wells, texts] = [projects(), seeds()];
let tried = 0;
let broken = 0;
while (Date.now() < until) {
  const text = spoilt(chance.one(texts), chance, texts);
  const well = chance.one(wells);
  const time = timeFor(text, well);
  const slow = time > LONGEST ? [`it took ${Math.round(time)} ms`] : [];
  const faults = [...slow, ...faultsWith(text, well)];
  if (faults.length > 0) keep(text, faults);
  if (++tried % 5000 === 0) console.log(`${tried} texts tried, ${broken} broke something`);
}
console.log(`${tried} texts tried with seed ${options.seed}, ${broken} broke something`);
process.exitCode = broken > 0 ? 1 : 0;

function keep(text, faults) {
  broken++;
  const name = `${createHash('sha256').update(text).digest('hex').slice(0, 12)}.txt`;
  writeFileSync(join(HERE, 'corpus', name), text);
  console.log(`${name}: ${faults.join('\n  ')}`);
}

async function bundled() {
  const scratch = mkdtempSync(join(tmpdir(), 'setproof-fuzz-'));
  const outfile = join(scratch, 'fuzz.mjs');
  const entry = "export * from './random.ts'; export * from './spoil.ts'; export * from './try.ts';";
  await build({
    stdin: { contents: entry, resolveDir: HERE, loader: 'ts' },
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    define: { 'import.meta.dirname': JSON.stringify(join(ROOT, 'tests/support')) },
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
  });
  const module = await import(pathToFileURL(outfile).href);
  rmSync(scratch, { recursive: true, force: true });
  return module;
}
