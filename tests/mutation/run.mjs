// node tests/mutation/run.mjs [--only TEXT] [--fresh] [--workers 2] [--out FILE] [--again FILE]: changes each constant, limit and sign
// of the handbook, the windows and the table of units, one at a time; each change should make a test fail. Prints those
// that no test noticed, and fails if one of them is not in explained.json. Not part of `npm test`: it takes minutes.
//   --only TEXT   files whose name contains the text
//   --out FILE    writes there what noticed each change
//   --again FILE  what an `--out` says was noticed is not asked again
//   --fresh       start the tests again for each change, in case one of them remembers something
import { fork } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { lineOf, mutantsOf } from './mutants.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '../..');
/** A change that takes longer counts as noticed: an endless loop is cut short long before, by its steps. */
const LONGEST = 1_200_000;
/** Fewer changes than that are not worth a second process, which has to get ready too. */
const SHARED = 300;
/** Tests of whole wells that tell little and take long, or ask another program. */
const LONG = /yaml-suite|finite|circuit|taps|chain|robustness/;
/** Who is asked first: what rests on a source outside the project, then numbers kept from a former day, for they are quick. */
const STAGES = [
  { name: 'reference', suites: testsIn('tests/reference') },
  { name: 'known wells', suites: ['tests/mutation/known-wells.ts'] },
  {
    name: 'hand-worked',
    suites: ['reference/chain.test.ts', 'engine/values', 'engine/windows', 'engine/quantity'].flatMap((each) =>
      testsIn(`tests/${each}`),
    ),
  },
  {
    name: 'checks',
    suites: ['checks', 'engine/checks', 'engine/readings', 'reference/taps.test.ts'].flatMap((each) =>
      testsIn(`tests/${each}`),
    ),
  },
  { name: 'variations', suites: ['tests/mutation/known-variations.ts'] },
];

const { values: options } = parseArgs({
  options: {
    only: { type: 'string', default: '' },
    again: { type: 'string' },
    out: { type: 'string' },
    fresh: { type: 'boolean', default: false },
    workers: { type: 'string', default: '2' },
  },
});
const files = [
  ...sources('server/src/engine/values'),
  ...sources('server/src/engine/windows'),
  'server/src/engine/quantity/unit-table.ts',
];
const mutants = files.flatMap((file) => mutantsIn(file));
/** What noticed each change, by the number of the change. */
const noticed = new Map();
const alive = chosen();
const total = alive.size + noticed.size;

for (const stage of STAGES) {
  await ask(stage);
  if (options.out !== undefined) save(options.out);
}
report();

function sources(folder) {
  return filesIn(folder, '.ts');
}

function testsIn(folder) {
  if (folder.endsWith('.ts')) return [folder];
  return filesIn(folder, '.test.ts').filter((path) => !LONG.test(path));
}

function filesIn(folder, ending) {
  return readdirSync(join(ROOT, folder), { recursive: true })
    .filter((name) => name.endsWith(ending))
    .map((name) => `${folder}/${name}`)
    .sort();
}

function mutantsIn(file) {
  const source = readFileSync(join(ROOT, file), 'utf8');
  const lines = source.split('\n');
  const seen = new Map();
  return mutantsOf(source).map((mutant) => {
    const line = lineOf(source, mutant.start);
    const code = lines[line - 1].trim();
    // The same change can stand twice in a line, and a line twice in a file.
    const plain = `${file}  ${code}  ${mutant.what}`;
    const nth = (seen.get(plain) ?? 0) + 1;
    seen.set(plain, nth);
    return { ...mutant, file, line, code, key: nth === 1 ? plain : `${plain}  (${nth})` };
  });
}

/** What to look at: all, or what a former run left. */
function chosen() {
  const before = options.again === undefined ? [] : JSON.parse(readFileSync(options.again, 'utf8'));
  const already = new Map(before.map(({ change, ...by }) => [change, by]));
  const ids = mutants.map((_, id) => id).filter((id) => mutants[id].file.includes(options.only));
  for (const id of ids) if (already.has(mutants[id].key)) noticed.set(id, already.get(mutants[id].key));
  return new Set(ids.filter((id) => !noticed.has(id)));
}

async function ask({ name, suites }) {
  const queue = suites.flatMap(sharesOf);
  const work = async () => {
    for (let share = queue.shift(); share !== undefined; share = queue.shift()) await askAll(name, share);
  };
  await Promise.all(Array.from({ length: Number(options.workers) }, work));
}

/** A suite is asked by as many processes as there are workers, each for its share of what is left. */
function sharesOf(suite) {
  const count = alive.size > SHARED ? Number(options.workers) : 1;
  return Array.from({ length: count }, (_, at) => ({
    suite,
    ids: [...alive].filter((_, each) => each % count === at),
  }));
}

/** Asks until all are done, or one never ends: that one is noticed, and the rest is for another process. */
async function askAll(stage, { suite, ids }) {
  const began = Date.now();
  let left = ids.filter((id) => alive.has(id));
  let asked = 0;
  let found = 0;
  while (left.length > 0) {
    const answers = await askOnce(suite, left);
    asked += answers.size;
    for (const [id, by] of answers) {
      if (by === undefined || !alive.delete(id)) continue;
      found++;
      noticed.set(id, { stage, suite, by });
    }
    left = left.filter((id) => alive.has(id) && answers.rest.has(id));
  }
  const seconds = Math.round((Date.now() - began) / 1000);
  console.log(`${alive.size} of ${total} left; ${suite} came to ${asked} and noticed ${found} in ${seconds} s`);
}

function askOnce(suite, ids) {
  return new Promise((resolve, reject) => {
    const look = fork(join(ROOT, 'tests/mutation/quick.mjs'), { stdio: 'inherit' });
    const answers = new Map();
    answers.rest = new Set();
    let isReady = false;
    let timer;
    const wait = () => {
      clearTimeout(timer);
      timer = setTimeout(() => look.kill('SIGKILL'), LONGEST);
    };
    look.on('message', (message) => {
      wait();
      if (message.ready) {
        isReady = true;
        answers.rest = new Set(message.reached);
        for (const name of message.unfit) console.log(`could not be asked: ${suite}: ${name}`);
      } else {
        answers.set(message.id, message.noticedBy);
        answers.rest.delete(message.id);
      }
    });
    look.on('exit', (code) => {
      clearTimeout(timer);
      if (code === 1 || !isReady) return reject(new Error(`${suite} cannot be run`));
      const [stuck] = answers.rest;
      if (stuck !== undefined) answers.set(stuck, 'never ends');
      answers.rest.delete(stuck);
      resolve(answers);
    });
    look.send({ root: ROOT, suite, mutants, isFresh: options.fresh, ids });
  });
}

function report() {
  const explained = JSON.parse(readFileSync(join(ROOT, 'tests/mutation/explained.json'), 'utf8'));
  const reasons = new Map(explained.flatMap(({ reason, changes }) => changes.map((key) => [key, reason])));
  const unnoticed = [...alive].map((id) => mutants[id]);
  const open = unnoticed.filter(({ key }) => !reasons.has(key));
  const stale =
    total === mutants.length ? [...reasons.keys()].filter((key) => !unnoticed.some((each) => each.key === key)) : [];
  console.log(`\n${noticed.size} of ${total} changes were noticed, ${unnoticed.length - open.length} are explained.`);
  for (const { name } of STAGES)
    console.log(`  by ${name}: ${[...noticed.values()].filter(({ stage }) => stage === name).length}`);
  for (const { file, line, what, code } of open) console.log(`not noticed  ${file}:${line}  ${what}    ${code}`);
  for (const key of stale) console.log(`explained, but noticed or gone  ${key}`);
  process.exitCode = open.length + stale.length > 0 ? 1 : 0;
}

function save(path) {
  const by = [...noticed].map(([id, by]) => ({ change: mutants[id].key, ...by }));
  writeFileSync(path, `${JSON.stringify(by, undefined, 1)}\n`);
}
