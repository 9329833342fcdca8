import type { Comparison, FleetComparison } from '../../engine/index.ts';

/** A comparison with all that is needed to tell it. */
export interface CompareReport {
  readonly fleet: FleetComparison;
  /** A path as the reader knows it. */
  readonly nameOf: (path: string) => string;
  /** Day of the checks on both sides, `2026-03-14`. */
  readonly today: string;
  /** Whether entries are listed that say the same in another unit or spelling. */
  readonly showsRewritten: boolean;
  /** What is compared with what: a file, a folder, a revision. */
  readonly before: string;
  readonly after: string;
}

/** One comparison told by itself: of two files, or of the file in an editor. */
export function fleetOfOne(comparison: Comparison): FleetComparison {
  return { documents: comparison.change === 'same' ? [] : [comparison], users: new Map(), total: 1 };
}

/** Path of a document as it is now, or was. */
export function pathOf({ before, after }: Comparison): string {
  return after?.path ?? before?.path ?? '';
}
