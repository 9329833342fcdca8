const SAMPLES = 128;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/**
 * The golden section cuts a bracket of 2/128 to about 1e-12 in this many steps, beyond which a flat top has no more
 * to say.
 */
const STEPS = 48;

/**
 * Where a function of one variable is greatest between two ends: the best of 129 equal samples, refined between its
 * neighbours by the golden section. Finds the highest top that is wider than a sample spacing.
 *
 * @returns NaN when the ends are not finite, or f is finite at no sample.
 */
export function maximizer(f: (x: number) => number, low: number, high: number): number {
  const spacing = (high - low) / SAMPLES;
  let best = Number.NaN;
  let top = Number.NEGATIVE_INFINITY;
  for (let index = 0; index <= SAMPLES; index += 1) {
    const x = index === SAMPLES ? high : low + index * spacing;
    const y = f(x);
    if (Number.isFinite(y) && y > top) [best, top] = [x, y];
  }
  return Number.isFinite(best) ? climb(f, Math.max(low, best - spacing), Math.min(high, best + spacing)) : Number.NaN;
}

function climb(f: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  for (let step = 0; step < STEPS; step += 1) {
    const left = high - GOLDEN * (high - low);
    const right = low + GOLDEN * (high - low);
    if (f(left) >= f(right)) high = right;
    else low = left;
  }
  return (low + high) / 2;
}
