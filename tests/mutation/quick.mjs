// A process that runs one test file, bundled once with all changes in it, for one change after the other. Of the tests
// only those that come to the changed expression are run; what is computed while the bundle starts is started again.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import vm from 'node:vm';
import { build } from 'esbuild';
import { switched } from './mutants.mjs';
import { Switches } from './switches.mjs';

const require = createRequire(import.meta.url);
/** How many times longer than without a change a test may take, in expressions, and what is always granted. */
const PATIENCE = { factor: 30, steps: 3_000_000 };

process.once('message', async ({ root, suite, mutants, isFresh, ids }) => {
  const look = new QuickLook(mutants, isFresh);
  await look.start(root, suite);
  process.send({ ready: true, unfit: look.unfit, reached: [...look.reachable(ids)] });
  for (const id of look.reachable(ids)) process.send({ id, noticedBy: await look.noticedBy(id) });
  process.disconnect();
});

class QuickLook {
  #mutants;
  #isFresh;
  #switches;
  #expect;
  #script;
  #require;
  #tests;
  /** The tests that come to each expression. */
  #testsAt;
  /** Expressions that are come to before any test runs. */
  #atStart;
  /** Tests that fail without a change, or only here: not asked. */
  unfit = [];

  constructor(mutants, isFresh) {
    this.#mutants = mutants;
    this.#testsAt = mutants.map(() => []);
    this.#isFresh = isFresh;
    this.#switches = new Switches(mutants.length);
    globalThis.$mutation = this.#switches;
  }

  async start(root, suite) {
    this.#expect = await vitestMatchers();
    this.#require = await requireFrom(join(root, suite));
    this.#script = new vm.Script(
      `(function (module, exports, require) {${await bundle(root, suite, this.#mutants)}\n})`,
    );
    const tests = await this.#instance();
    this.#atStart = this.#taken();
    for (const test of tests) {
      this.#switches.limit(Number.POSITIVE_INFINITY);
      const isPassed = await passes(test);
      Object.assign(test, { steps: this.#switches.steps, wins: 0 });
      const reached = this.#taken();
      if (isPassed) this.#note(test, reached);
      else this.unfit.push(test.name);
    }
    await this.#startAgain();
    this.#tests = tests.filter((test) => this.#isFit(test));
    for (const each of this.#testsAt) each.splice(0, each.length, ...each.filter((test) => this.#isFit(test)));
    if (this.#tests.length === 0) throw new Error(`${suite} has no test that passes without a change`);
  }

  /** What fails in a second start without a change would seem to notice everything. */
  async #startAgain() {
    for (const test of await this.#instance()) {
      if (this.#isFit(test) && !(await passes(test))) this.unfit.push(test.name);
    }
  }

  #note(test, reached) {
    for (let id = reached.indexOf(1); id >= 0; id = reached.indexOf(1, id + 1)) this.#testsAt[id].push(test);
  }

  #isFit({ name }) {
    return !this.unfit.includes(name);
  }

  reachable(ids) {
    return ids.filter((id) => this.#atStart[id] === 1 || this.#testsAt[id].length > 0);
  }

  /** The test that fails with a change, or undefined. */
  async noticedBy(id) {
    this.#switches.on = id;
    try {
      if (this.#atStart[id] === 1 || this.#isFresh) return await this.#noticedAnew();
      const test = await this.#firstFailing(this.#testsAt[id]);
      if (test !== undefined) test.wins++;
      return test?.name;
    } finally {
      this.#switches.on = -1;
    }
  }

  async #noticedAnew() {
    try {
      this.#switches.limit(1e9);
      const tests = await this.#instance();
      const fit = tests.filter((test) => this.#isFit(test));
      if (fit.length < this.#tests.length) return 'the number of tests';
      const usual = new Map(this.#tests.map((test) => [test.name, test]));
      for (const test of fit) Object.assign(test, { steps: usual.get(test.name)?.steps ?? 0, wins: 0 });
      return (await this.#firstFailing(fit))?.name;
    } catch (error) {
      return `the start (${error})`;
    }
  }

  /** Those that noticed most so far come first. */
  async #firstFailing(tests) {
    for (const test of tests.toSorted((a, b) => b.wins - a.wins)) {
      this.#switches.limit(test.steps * PATIENCE.factor + PATIENCE.steps);
      if (!(await passes(test))) return test;
    }
    return undefined;
  }

  async #instance() {
    const collected = { tests: [], before: [], after: [] };
    globalThis.$vitest = { expect: this.#expect, collected };
    const module = { exports: {} };
    this.#script.runInThisContext()(module, module.exports, this.#require);
    for (const run of collected.before) await run();
    return collected.tests;
  }

  #taken() {
    const { reached } = this.#switches;
    this.#switches.reached = new Uint8Array(reached.length);
    return reached;
  }
}

async function passes({ run }) {
  try {
    await run({ skip: () => undefined });
    return true;
  } catch {
    return false;
  }
}

/** What a bundle leaves outside: mostly to be required; one package is an ES module without a way to require it. */
async function requireFrom(path) {
  const own = createRequire(path);
  const imported = new Map([['eecircuit-engine', await import('eecircuit-engine')]]);
  return (name) => imported.get(name) ?? own(name);
}

async function bundle(root, suite, mutants) {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: [suite],
    bundle: true,
    write: false,
    platform: 'node',
    format: 'cjs',
    packages: 'external',
    alias: { vitest: join(import.meta.dirname, 'little-vitest.mjs') },
    define: { 'import.meta.dirname': '__dirname' },
    logLevel: 'error',
    plugins: [switching(root, mutants)],
  });
  return outputFiles[0].text;
}

function switching(root, mutants) {
  return {
    name: 'changes that can be switched on',
    setup: (building) =>
      building.onLoad({ filter: /\/(server|tests)\/.*\.ts$/ }, ({ path }) => {
        const source = readFileSync(path, 'utf8').replaceAll('import.meta.dirname', JSON.stringify(dirname(path)));
        const first = mutants.findIndex(({ file }) => join(root, file) === path);
        const own = mutants.filter(({ file }) => join(root, file) === path);
        return { contents: own.length === 0 ? source : switched(source, own, first), loader: 'ts' };
      }),
  };
}

/** Vitest's own matchers, without its runner. */
async function vitestMatchers() {
  const ofVitest = createRequire(require.resolve('vitest/package.json'));
  const matchers = await import(pathToFileURL(ofVitest.resolve('@vitest/expect')).href);
  const { chai, JestExtend, JestChaiExpect, JestAsymmetricMatchers } = matchers;
  for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(plugin);
  chai.expect.extend(chai.expect, {
    toMatchFileSnapshot: (text, path) => ({
      pass: text === readFileSync(path, 'utf8'),
      message: () => `not as in ${path}`,
    }),
  });
  return Object.assign((value, message) => chai.expect(value, message), chai.expect);
}
