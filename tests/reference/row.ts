import { expect, it } from 'vitest';

/**
 * One value that the outside world gives.
 * Status: R read in a public copy, Rp partly read, M from memory, D derived here from definitions or from R and M.
 */
export interface Row {
  readonly what: string;
  readonly actual: () => number;
  readonly expected: number;
  /** Relative; 0.1 % unless the reference itself is coarser. */
  readonly tolerance?: number;
  readonly source: string;
}

const DEFAULT_TOLERANCE = 1e-3;

/** One test for each row, named by what it compares and by where the expected value comes from. */
export function agree(rows: readonly Row[]): void {
  it.each(rows)('$what = $expected [$source]', ({ actual, expected, tolerance = DEFAULT_TOLERANCE }) => {
    const value = actual();
    const allowed = tolerance * Math.abs(expected);
    expect(Math.abs(value - expected), `got ${value}, wanted ${expected} within ${allowed}`).toBeLessThanOrEqual(
      allowed || 1e-9,
    );
  });
}
