// A host whose files come when the test lets them come, each with what stood in it when it was asked for.
import type { Change } from '../../server/src/engine/index.ts';
import type { AskedFile, LanguageHost } from '../../server/src/language/files.ts';
import { TODAY } from './site.ts';

interface Read {
  readonly paths: readonly string[];
  readonly release: () => void;
}

export class SlowHost implements LanguageHost {
  readonly texts = new Map<string, string>();
  /** What a policy leaves out of a search. */
  readonly leavesOut = new Set<string>();
  readonly checkPages = undefined;
  readonly #waiting: Read[] = [];
  /** Whether reads wait until they are released. */
  isSlow = false;

  readonly files = {
    open: () => undefined,
    rootOf: async () => '/site',
    read: (asked: readonly AskedFile[]) => this.#read(asked),
    find: async () => [...this.texts.keys()].filter((path) => !this.leavesOut.has(path)),
  };

  today(): string {
    return TODAY;
  }

  /** Paths that are being read. */
  get reading(): readonly string[] {
    return this.#waiting.flatMap(({ paths }) => paths);
  }

  /** Lets all reads come that have begun. */
  release(): void {
    for (const { release } of this.#waiting.splice(0)) release();
  }

  async #read(asked: readonly AskedFile[]): Promise<readonly Change[]> {
    const paths = asked.map(({ path }) => path);
    const stood = paths.map((path) => this.#now(path));
    if (this.isSlow) await new Promise<void>((release) => this.#waiting.push({ paths, release }));
    return stood;
  }

  #now(path: string): Change {
    const text = this.texts.get(path);
    return text === undefined ? { path, absent: true } : { path, text, root: '/site' };
  }
}
