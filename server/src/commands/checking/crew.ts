import { Worker } from 'node:worker_threads';
import type { FleetLedger } from '../../engine/index.ts';
import { type Inspection, Inspector, type Survey } from './inspector.ts';
import type { Means, Setup } from './setup.ts';

/** Those who read and check files, in this process or in workers. */
export interface Crew {
  /** How many batches are worth being under way at a time. */
  readonly width: number;
  survey(paths: readonly string[]): Promise<readonly Survey[]>;
  check(paths: readonly string[]): Promise<Inspection>;
  /** Makes the installations known that those to be checked are compared with. */
  meet(fleet: FleetLedger): void;
  end(): Promise<void>;
}

/** What a worker is asked. */
export type Request =
  | { readonly id: number; readonly survey: readonly string[] }
  | { readonly id: number; readonly check: readonly string[] }
  | { readonly fleet: FleetLedger };

/** What it answers, each request but the fleet by its id. */
export interface Answer {
  readonly id: number;
  readonly result: readonly Survey[] | Inspection;
}

/** Does all the work in this process. Between batches others get their turn, such as whoever wants to interrupt it. */
export async function crewOfOne(setup: Setup, means: Means): Promise<Crew> {
  const inspector = await Inspector.create(setup, means);
  return {
    width: 1,
    survey: async (paths) => {
      await turn();
      return inspector.survey(paths);
    },
    check: async (paths) => {
      await turn();
      return inspector.check(paths);
    },
    meet: (fleet) => inspector.meet(fleet),
    end: async () => {},
  };
}

function turn(): Promise<void> {
  return new Promise((resolve) => {
    setImmediate(resolve);
  });
}

/** Batches that wait in front of each worker, so that none stands idle. */
const AHEAD = 2;

/** Shares the work out among workers, each batch to the one with the least to do. */
export function crewOfWorkers(count: number, program: URL, setup: Setup): Crew {
  const workers = Array.from({ length: count }, () => new Hand(program, setup));
  const idlest = () => workers.reduce((least, each) => (each.load < least.load ? each : least));
  return {
    width: AHEAD * count,
    survey: (paths) => idlest().ask<readonly Survey[]>((id) => ({ id, survey: paths })),
    check: (paths) => idlest().ask<Inspection>((id) => ({ id, check: paths })),
    meet: (fleet) => {
      for (const worker of workers) worker.tell({ fleet });
    },
    end: async () => {
      await Promise.all(workers.map((worker) => worker.end()));
    },
  };
}

/** Little outlives a file, so that a small nursery costs nothing and keeps a worker small, MB. */
const YOUNG = 16;

interface Waiting {
  readonly resolve: (result: never) => void;
  readonly reject: (error: Error) => void;
}

/** One worker, and the answers that are due from it. */
class Hand {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Waiting>();
  #next = 0;
  #broken: Error | undefined;

  constructor(program: URL, setup: Setup) {
    this.#worker = new Worker(program, { workerData: setup, resourceLimits: { maxYoungGenerationSizeMb: YOUNG } });
    this.#worker.on('message', ({ id, result }: Answer) => {
      this.#waiting.get(id)?.resolve(result as never);
      this.#waiting.delete(id);
    });
    this.#worker.on('error', (error) => this.#fail(error));
    this.#worker.on('exit', () => this.#fail(new Error('A worker ended too early.')));
  }

  get load(): number {
    return this.#waiting.size;
  }

  ask<T>(request: (id: number) => Request): Promise<T> {
    const id = this.#next++;
    return new Promise<T>((resolve, reject) => {
      if (this.#broken !== undefined) return reject(this.#broken);
      this.#waiting.set(id, { resolve, reject });
      this.#worker.postMessage(request(id));
    });
  }

  tell(request: Request): void {
    this.#worker.postMessage(request);
  }

  async end(): Promise<void> {
    this.#waiting.clear();
    await this.#worker.terminate();
  }

  #fail(error: Error): void {
    this.#broken ??= error;
    for (const { reject } of this.#waiting.values()) reject(error);
    this.#waiting.clear();
  }
}

/**
 * Results of work on each item, in the order of the items, however many are under way. The next are begun when a result
 * is taken, so that they do not pile up before a slow one.
 */
export async function* inOrder<T, R>(
  items: readonly T[],
  width: number,
  work: (item: T) => Promise<R>,
): AsyncGenerator<R> {
  const running: Promise<R>[] = [];
  let next = 0;
  while (next < items.length || running.length > 0) {
    while (running.length < width && next < items.length) {
      const begun = work(items[next++] as T);
      // A failure is told when its turn comes; until then nobody listens.
      begun.catch(() => {});
      running.push(begun);
    }
    yield await (running.shift() as Promise<R>);
  }
}

export function batchesOf<T>(items: readonly T[], size: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(items.length / size) }, (_, at) => items.slice(at * size, (at + 1) * size));
}
