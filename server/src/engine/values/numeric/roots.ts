/** A bracket of a root, and the function at its ends; f is below zero at `low` after the sign has been turned. */
interface Bracket {
  low: number;
  high: number;
  atLow: number;
  atHigh: number;
}

/** Half-width below which doubles of this size cannot be split any further in a useful way. */
const RELATIVE_FLOOR = 4 * Number.EPSILON;
const DEFAULT_RELATIVE_TOLERANCE = 1e-12;

/**
 * Root of a continuous function between two ends at which it has opposite signs.
 *
 * Method: ITP (Oliveira and Takahashi, ACM Trans. Math. Softw. 47, 2020; from memory): as fast as a secant on smooth
 * functions, and never more than one evaluation beyond bisection, so that the cost is finite whatever f does.
 *
 * @param tolerance greatest error of the root, in the unit of x; without it 1e-12 of the larger end.
 * @returns NaN when an end or f at an end is not finite, when the ends do not bracket a root, or when f is NaN inside.
 */
export function bracketedRoot(f: (x: number) => number, low: number, high: number, tolerance?: number): number {
  const from = Math.min(low, high);
  const to = Math.max(low, high);
  const atFrom = f(from);
  const atTo = f(to);
  if (![from, to, atFrom, atTo].every(Number.isFinite)) return Number.NaN;
  if (atFrom === 0) return from;
  if (atTo === 0) return to;
  if (atFrom > 0 === atTo > 0) return Number.NaN;
  const sign = atFrom < 0 ? 1 : -1;
  const bracket = { low: from, high: to, atLow: sign * atFrom, atHigh: sign * atTo };
  return shrink((x) => sign * f(x), bracket, errorAllowed(from, to, tolerance));
}

function errorAllowed(from: number, to: number, tolerance: number | undefined): number {
  const size = Math.max(Math.abs(from), Math.abs(to));
  return Math.max(tolerance ?? DEFAULT_RELATIVE_TOLERANCE * size, RELATIVE_FLOOR * size);
}

function shrink(f: (x: number) => number, bracket: Bracket, error: number): number {
  const span = bracket.high - bracket.low;
  const steps = Math.max(0, Math.ceil(Math.log2(span / (2 * error)))) + 1;
  for (let step = 0; step <= steps && bracket.high - bracket.low > 2 * error; step += 1) {
    const x = nextPoint(bracket, span, error * 2 ** (steps - step));
    const y = f(x);
    if (Number.isNaN(y)) return Number.NaN;
    if (y === 0) return x;
    moveEnd(bracket, x, y);
  }
  return middle(bracket);
}

/** In place: a root is sought in the innermost loops of the handbook, where a new object a step is half of the cost. */
function moveEnd(bracket: Bracket, x: number, y: number): void {
  if (y < 0) {
    bracket.low = x;
    bracket.atLow = y;
  } else {
    bracket.high = x;
    bracket.atHigh = y;
  }
}

/**
 * Interpolate, truncate towards the middle, project to within `reach` of the middle: the reach is what bounds the
 * cost.
 */
function nextPoint(bracket: Bracket, span: number, reach: number): number {
  const { low, high, atLow, atHigh } = bracket;
  const centre = middle(bracket);
  const secant = (atHigh * low - atLow * high) / (atHigh - atLow);
  const side = Math.sign(centre - secant);
  const shift = (0.2 * (high - low) ** 2) / span;
  const truncated = shift <= Math.abs(centre - secant) ? secant + side * shift : centre;
  const radius = Math.max(0, reach - (high - low) / 2);
  return Math.abs(truncated - centre) <= radius ? truncated : centre - side * radius;
}

function middle(bracket: Bracket): number {
  return bracket.low + (bracket.high - bracket.low) / 2;
}
