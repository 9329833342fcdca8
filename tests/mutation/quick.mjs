// The quick look at a change: the engine is bundled with it and works out the sample wells, all in this process. What
// changes one of their numbers is noticed by tests/repositories/numbers.test.ts; only the rest needs the slow way.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

export class QuickLook {
  #root;
  #scratch = mkdtempSync(join(tmpdir(), 'setproof-quick-'));
  #turn = 0;
  #usual;

  constructor(root) {
    this.#root = root;
  }

  async start() {
    this.#usual = await this.#numbers(undefined);
    return this;
  }

  /** Whether a change of one file changes a number of the samples, or lets the engine fail. */
  async notices(file, text) {
    try {
      return (await this.#numbers({ path: join(this.#root, file), text })) !== this.#usual;
    } catch {
      return true;
    }
  }

  close() {
    rmSync(this.#scratch, { recursive: true, force: true });
  }

  async #numbers(change) {
    const outfile = join(this.#scratch, `${this.#turn++}.mjs`);
    await build({
      absWorkingDir: this.#root,
      entryPoints: ['tests/mutation/oracle.ts'],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      logLevel: 'silent',
      plugins: [changed(change)],
      banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    });
    const { allNumbers } = await import(pathToFileURL(outfile).href);
    rmSync(outfile);
    return allNumbers(join(this.#root, 'samples'));
  }
}

function changed(change) {
  return {
    name: 'one file changed',
    setup(building) {
      building.onLoad({ filter: /\.ts$/ }, ({ path }) =>
        path === change?.path
          ? { contents: change.text, loader: 'ts' }
          : { contents: readFileSync(path, 'utf8'), loader: 'ts' },
      );
    },
  };
}
