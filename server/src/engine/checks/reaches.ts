/** Whether a number reaches a limit. Units that convert through inexact factors must not push an equal one below it. */
export function reaches(number: number, least: number): boolean {
  return number >= least - 1e-9 * Math.abs(least);
}
