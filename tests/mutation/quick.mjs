// The quick look at a change: the engine is bundled with it and works out the wells of tests/support/known-wells.ts, all in this
// process. What changes one of their numbers is noticed by tests/repositories/numbers.test.ts, and what changes a unit by
// tests/reference/units.test.ts; only the rest needs the slow way.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import vm from 'node:vm';
import { context } from 'esbuild';

process.once('message', async ({ root, file, texts, usual }) => {
  const look = new QuickLook(root, file);
  await look.start(usual);
  process.send({ usual: look.usual });
  for (const text of texts) process.send({ noticed: await look.notices(text) });
  await look.close();
  process.disconnect();
});

class QuickLook {
  #root;
  /** What comes out without a change; the same for all files, and long to work out. */
  usual;
  /** The bundler, which reads again only the file that is being changed. */
  #bundler;
  #path;
  #text;

  constructor(root, file) {
    this.#root = root;
    this.#path = join(root, file);
    this.#text = readFileSync(this.#path, 'utf8');
  }

  async start(usual) {
    this.#bundler = await context({
      absWorkingDir: this.#root,
      entryPoints: ['tests/mutation/oracle.ts'],
      bundle: true,
      write: false,
      platform: 'node',
      format: 'cjs',
      logLevel: 'silent',
      define: { 'import.meta.dirname': JSON.stringify(join(this.#root, 'tests/support')) },
      plugins: [this.#changing()],
    });
    const oracle = await this.#oracle();
    this.usual = usual ?? { numbers: oracle.allNumbers(), varied: oracle.variedNumbers() };
  }

  /** Whether a change of the file changes a number of the wells, or lets the engine fail. */
  async notices(text) {
    this.#text = text;
    try {
      const oracle = await this.#oracle();
      return oracle.allNumbers() !== this.usual.numbers || oracle.varyDifferently(this.usual.varied);
    } catch {
      return true;
    }
  }

  async close() {
    await this.#bundler.dispose();
  }

  async #oracle() {
    const { outputFiles } = await this.#bundler.rebuild();
    const module = { exports: {} };
    const run = vm.runInThisContext(`(function (module, exports, require) {${outputFiles[0].text}\n})`);
    run(module, module.exports, createRequire(import.meta.url));
    return module.exports;
  }

  #changing() {
    const filter = new RegExp(`${this.#path.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')}$`);
    return {
      name: 'one file changed',
      setup: (building) => building.onLoad({ filter }, () => ({ contents: this.#text, loader: 'ts' })),
    };
  }
}
