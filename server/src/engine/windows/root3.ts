import { ROOT3 } from '../values/physics.ts';

/** How far above the least voltage that serves a tap lies that somebody would have chosen: a step or two of a plate. */
const AS_CHOSEN = 1.25;

/**
 * The voltage that a tap outside of its window would have, if √3 explains that it is outside: with it the tap would be
 * where one chooses taps, just above the least that serves. A window is often wider than √3, so that merely being
 * inside with it would explain any wrong tap.
 * @param low least tap voltage that serves, V
 * @param high most that is allowed, V
 * @returns undefined where √3 explains nothing
 */
export function meantByRoot3(tap: number, low: number, high: number): number | undefined {
  const meant = tap < low ? tap * ROOT3 : tap / ROOT3;
  return meant >= low && meant <= Math.min(high, low * AS_CHOSEN) ? meant : undefined;
}
