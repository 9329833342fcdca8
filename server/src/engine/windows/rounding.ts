const MINUTE = 60;
const HOUR = 3600;

/** A number to three figures within the range that it was chosen from, to four where that has no such number. */
export function readable(number: number, low: number, high: number): number {
  const isInside = (each: number) => each >= low && each <= high;
  return [3, 4].flatMap((figures) => roundings(number, figures)).find(isInside) ?? number;
}

/** The nearest number of so many figures, then the next below and above. */
function roundings(number: number, figures: number): readonly number[] {
  const step = 10 ** (Math.floor(Math.log10(Math.abs(number))) - figures + 1);
  const tidy = (steps: number) => Number((steps * step).toPrecision(figures));
  const steps = number / step;
  return [tidy(Math.round(steps)), tidy(Math.floor(steps)), tidy(Math.ceil(steps))];
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
