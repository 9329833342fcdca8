// node tests/mutation/run.mjs [--quick-only] [--sample N [--offset K]] [FILE…]: changes each constant, limit and sign in
// the handbook and the table of units, one at a time: each change should make a test fail. Prints those that no test
// noticed. Takes a second for each change, and a minute for one that the known wells don't show, so it is not part of
// `npm test`. With --quick-only the known wells alone are asked.
import { fork, spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { lineOf, mutantsOf } from './mutants.mjs';
import { testsFor } from './tests-for.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '../..');
const COPIED = [
  'server',
  'tests',
  'schemas',
  'samples',
  'build',
  'package.json',
  'tsconfig.json',
  'tsconfig.base.json',
];
const WORKERS = 2;
const LONGEST = 120_000;

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: 'string', default: '1' },
    offset: { type: 'string', default: '0' },
    'quick-only': { type: 'boolean', default: false },
  },
});
const files =
  positionals.length > 0
    ? positionals
    : [...sources('server/src/engine/values'), 'server/src/engine/quantity/unit-table.ts'];
const every = Number(options.sample);
const queue = files.flatMap((file) => mutantsIn(file)).filter((_, at) => at % every === Number(options.offset));
const total = queue.length;
const survivors = [];
let done = 0;

await lookQuickly();
if (options['quick-only']) for (const mutant of queue.splice(0)) survived(mutant);
else await Promise.all(Array.from({ length: WORKERS }, () => work()));
report();

function sources(folder) {
  return readdirSync(join(ROOT, folder), { recursive: true })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`)
    .sort();
}

function mutantsIn(file) {
  const source = readFileSync(join(ROOT, file), 'utf8');
  return mutantsOf(source).map((mutant) => ({ ...mutant, file, source, line: lineOf(source, mutant.start) }));
}

/** Takes from the queue what the known wells show. */
async function lookQuickly() {
  const unnoticed = [];
  let usual;
  for (const file of new Set(queue.map((mutant) => mutant.file))) {
    const mutants = queue.filter((mutant) => mutant.file === file);
    const look = await lookAt(file, mutants, usual);
    const { noticed } = look;
    usual = look.usual;
    unnoticed.push(...mutants.filter((_, at) => !noticed[at]));
    done += mutants.length;
    console.log(`${done} of ${total}: ${unnoticed.length} not noticed by the known wells, with ${file}`);
  }
  done = total - unnoticed.length;
  queue.splice(0, queue.length, ...unnoticed);
}

/** A process for each file: what a thousand bundles leave behind would not fit into one. */
async function lookAt(file, mutants, usual) {
  const texts = mutants.map(({ source, start, end, text }) => source.slice(0, start) + text + source.slice(end));
  const noticed = [];
  let known = usual;
  while (noticed.length < texts.length) {
    const look = await lookOnce({ root: ROOT, file, usual: known, texts: texts.slice(noticed.length) });
    noticed.push(...look.noticed);
    known = look.usual ?? known;
  }
  return { noticed, usual: known };
}

/** Looks at mutants until all are done, or one never ends: that one is noticed, and the rest is for another process. */
function lookOnce(work) {
  return new Promise((resolve) => {
    const look = fork(join(ROOT, 'tests/mutation/quick.mjs'), { stdio: 'inherit' });
    const noticed = [];
    let usual;
    let timer;
    const wait = () => {
      clearTimeout(timer);
      timer = setTimeout(() => look.kill('SIGKILL'), LONGEST);
    };
    look.on('message', (message) => {
      wait();
      if ('usual' in message) usual = message.usual;
      else noticed.push(message.noticed);
    });
    look.on('exit', () => {
      clearTimeout(timer);
      const isCutShort = noticed.length < work.texts.length;
      resolve({ noticed: isCutShort ? [...noticed, true] : noticed, usual });
    });
    wait();
    look.send(work);
  });
}

/** One worker has a copy of the tree of its own, so that two changes never meet. */
async function work() {
  const copy = mkdtempSync(join(tmpdir(), 'setproof-mutation-'));
  for (const each of COPIED)
    if (existsSync(join(ROOT, each))) cpSync(join(ROOT, each), join(copy, each), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(copy, 'node_modules'));
  try {
    if (await testsFail(copy, testsFor(files[0]))) throw new Error('the tests fail without any change');
    for (let mutant = queue.shift(); mutant !== undefined; mutant = queue.shift()) await tryOut(mutant, copy);
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

async function tryOut(mutant, copy) {
  const { file, source, start, end, text } = mutant;
  const path = join(copy, file);
  writeFileSync(path, source.slice(0, start) + text + source.slice(end));
  const noticed = await testsFail(copy, testsFor(file));
  writeFileSync(path, source);
  done++;
  if (!noticed) survived(mutant);
  if (done % 20 === 0) console.log(`${done} of ${total}, ${survivors.length} survived`);
}

function survived({ file, source, line, what }) {
  survivors.push(`${file}:${line}  ${what}    ${source.split('\n')[line - 1].trim()}`);
  console.log(`survived  ${survivors.at(-1)}`);
}

function testsFail(copy, tests) {
  return new Promise((resolve) => {
    const vitest = join(ROOT, 'node_modules/vitest/vitest.mjs');
    const there = tests.filter((each) => existsSync(join(copy, each)));
    const run = spawn(
      process.execPath,
      [
        vitest,
        'run',
        '--config',
        'tests/mutation/vitest.config.ts',
        '--root',
        copy,
        '--bail',
        '1',
        '--reporter',
        'dot',
        ...there,
      ],
      {
        cwd: copy,
        stdio: 'ignore',
      },
    );
    const timer = setTimeout(() => run.kill('SIGKILL'), LONGEST);
    run.on('exit', (code) => {
      clearTimeout(timer);
      resolve(code !== 0);
    });
  });
}

function report() {
  console.log(`\n${total - survivors.length} of ${total} changes were noticed.`);
  if (survivors.length > 0) console.log(`Not noticed:\n${survivors.join('\n')}`);
  process.exitCode = survivors.length > 0 ? 1 : 0;
}
