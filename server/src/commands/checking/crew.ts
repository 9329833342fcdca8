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
