import { Worker } from 'node:worker_threads';
import type { FleetLedger } from '../../engine/index.ts';
import type { Crew } from './crew.ts';
import type { Inspection, Survey } from './inspector.ts';
import type { Setup } from './setup.ts';

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
/** Far more than any document takes; a heap that may grow without end is swept only when it is many times too large, MB. */
const OLD = 512;

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
    const resourceLimits = { maxYoungGenerationSizeMb: YOUNG, maxOldGenerationSizeMb: OLD };
    this.#worker = new Worker(program, { workerData: setup, resourceLimits });
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
