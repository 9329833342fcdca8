/**
 * Monotone piecewise cubic through points: no overshoot between them, and flat at a local extreme.
 * Slopes by Fritsch and Butland's weighted harmonic mean with three-point ends, as SciPy's PchipInterpolator has them
 * (its source is open; agreement is tested). A data sheet's curve so stays within its own points.
 *
 * @param xs strictly increasing, at least two.
 * @param ys as many.
 * @returns the interpolant; NaN outside the points, and everywhere if the points are not as told.
 */
export function pchip(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  if (!isSeries(xs, ys)) return () => Number.NaN;
  const slopes = slopesOf(xs, ys);
  return (x) => {
    if (!(x >= xs[0]! && x <= xs.at(-1)!)) return Number.NaN;
    const k = segmentAt(xs, x);
    const width = xs[k + 1]! - xs[k]!;
    return hermite((x - xs[k]!) / width, ys[k]!, ys[k + 1]!, slopes[k]! * width, slopes[k + 1]! * width);
  };
}

function isSeries(xs: readonly number[], ys: readonly number[]): boolean {
  return (
    xs.length >= 2 &&
    xs.length === ys.length &&
    [...xs, ...ys].every(Number.isFinite) &&
    xs.every((x, index) => index === 0 || x > xs[index - 1]!)
  );
}

function slopesOf(xs: readonly number[], ys: readonly number[]): number[] {
  const widths = xs.slice(1).map((x, k) => x - xs[k]!);
  const chords = widths.map((width, k) => (ys[k + 1]! - ys[k]!) / width);
  const last = widths.length - 1;
  if (last === 0) return [chords[0]!, chords[0]!];
  return [
    endSlope(widths[0]!, widths[1]!, chords[0]!, chords[1]!),
    ...widths.slice(1).map((width, k) => innerSlope(widths[k]!, width, chords[k]!, chords[k + 1]!)),
    endSlope(widths[last]!, widths[last - 1]!, chords[last]!, chords[last - 1]!),
  ];
}

/** Weighted harmonic mean of the two chords; 0 where they differ in sign, so that an extreme stays at its point. */
function innerSlope(before: number, after: number, chordBefore: number, chordAfter: number): number {
  if (Math.sign(chordBefore) !== Math.sign(chordAfter) || chordBefore === 0) return 0;
  const weightBefore = 2 * after + before;
  const weightAfter = after + 2 * before;
  return (weightBefore + weightAfter) / (weightBefore / chordBefore + weightAfter / chordAfter);
}

/**
 * Three-point slope at an end, held to the shape of the data: never against the end chord, never over three times
 * it.
 */
function endSlope(near: number, far: number, chordNear: number, chordFar: number): number {
  const slope = ((2 * near + far) * chordNear - near * chordFar) / (near + far);
  if (Math.sign(slope) !== Math.sign(chordNear)) return 0;
  const turns = Math.sign(chordNear) !== Math.sign(chordFar);
  return turns && Math.abs(slope) > 3 * Math.abs(chordNear) ? 3 * chordNear : slope;
}

/** Index of the segment that holds x, which lies within the points. */
function segmentAt(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const centre = (low + high) >> 1;
    if (x >= xs[centre]!) low = centre;
    else high = centre;
  }
  return low;
}

/** Cubic on 0..1 from values and slopes at its ends. */
function hermite(t: number, start: number, end: number, slopeStart: number, slopeEnd: number): number {
  const s = 1 - t;
  return s * s * ((1 + 2 * t) * start + t * slopeStart) + t * t * ((1 + 2 * s) * end - s * slopeEnd);
}
