const MINUTE = 60;
const HOUR = 3600;

/** A number to three figures, unless that puts it outside of the range that it was chosen from. */
export function readable(number: number, low: number, high: number): number {
  const rounded = Number(number.toPrecision(3));
  return rounded >= low && rounded <= high ? rounded : number;
}

/** A number brought into a range; the lower end if the range is empty. */
export function within(number: number, low: number, high: number): number {
  return Math.max(low, Math.min(number, high));
}

/** A duration (s) rounded up so that it can be said: to five minutes, from one hour on to half an hour. */
export function longer(duration: number): number {
  const step = duration < HOUR ? 5 * MINUTE : HOUR / 2;
  return Math.ceil(duration / step - 1e-9) * step;
}
