// The quick look at a change: the engine is bundled with it and works out the wells of tests/support/known-wells.ts, all in this
// process. What changes one of their numbers is noticed by tests/repositories/numbers.test.ts, and what changes a unit by
// tests/reference/units.test.ts; only the rest needs the slow way.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import vm from 'node:vm';
import { context } from 'esbuild';

export class QuickLook {
  #root;
  #usual;
  #varied;
  /** The bundler, which reads again only the file that is being changed. */
  #bundler;
  #file;
  #text;

  constructor(root) {
    this.#root = root;
  }

  /** Whether a change of one file changes a number of the wells, or lets the engine fail. */
  async notices(file, text) {
    if (file !== this.#file) await this.#turnTo(file);
    this.#text = text;
    try {
      const oracle = await this.#oracle();
      return oracle.allNumbers() !== this.#usual || oracle.varyDifferently(this.#varied);
    } catch {
      return true;
    }
  }

  async close() {
    await this.#bundler?.dispose();
  }

  async #turnTo(file) {
    await this.close();
    this.#file = file;
    const path = join(this.#root, file);
    this.#text = readFileSync(path, 'utf8');
    this.#bundler = await context({
      absWorkingDir: this.#root,
      entryPoints: ['tests/mutation/oracle.ts'],
      bundle: true,
      write: false,
      platform: 'node',
      format: 'cjs',
      logLevel: 'silent',
      define: { 'import.meta.dirname': JSON.stringify(join(this.#root, 'tests/support')) },
      plugins: [this.#changing(path)],
    });
    const oracle = await this.#oracle();
    this.#usual ??= oracle.allNumbers();
    this.#varied ??= oracle.variedNumbers();
  }

  async #oracle() {
    const { outputFiles } = await this.#bundler.rebuild();
    const module = { exports: {} };
    const run = vm.runInThisContext(`(function (module, exports, require) {${outputFiles[0].text}\n})`);
    run(module, module.exports, createRequire(import.meta.url));
    return module.exports;
  }

  #changing(path) {
    const filter = new RegExp(`${path.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')}$`);
    return {
      name: 'one file changed',
      setup: (building) => building.onLoad({ filter }, () => ({ contents: this.#text, loader: 'ts' })),
    };
  }
}
