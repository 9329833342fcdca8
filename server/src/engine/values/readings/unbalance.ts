/**
 * Unbalance of three phases as a fraction: the greatest deviation from the mean over the mean, and not
 * (max - min)/mean, which may be twice as much.
 *
 * Voltages line to line: NEMA MG-1 12.45 and 14.36 (formula read in a public copy). Currents: the same form (common
 * practice, no source). Winding resistances line to line: as EASA AR100 takes them (limits read in a public copy).
 *
 * @param readings any one kind, the same unit.
 * @returns NaN with fewer than two readings, with one that is negative or not finite, or with a mean of zero.
 */
export function unbalance(readings: readonly number[]): number {
  if (readings.length < 2 || !readings.every((reading) => reading >= 0)) return Number.NaN;
  const mean = readings.reduce((sum, reading) => sum + reading, 0) / readings.length;
  return Math.max(...readings.map((reading) => Math.abs(reading - mean))) / mean;
}
