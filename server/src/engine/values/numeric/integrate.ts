/** Simpson's three points on one panel, and the area that they give. */
interface Panel {
  readonly from: number;
  readonly to: number;
  readonly atFrom: number;
  readonly atMiddle: number;
  readonly atTo: number;
}

/** Equal panels to start from, lest a few samples agree by chance on a function that they have not yet seen. */
const FIRST_PANELS = 8;
/** Halvings of one first panel: with the panels, at most about 16 000 evaluations, whatever f does. */
const DEEPEST = 9;
const RELATIVE_TOLERANCE = 1e-9;

/**
 * Integral of a function between two limits, by adaptive Simpson quadrature with a finite cost.
 * Relative error about 1e-9 for smooth functions; reversed limits give the opposite sign.
 *
 * @returns NaN when a limit, or f at any point visited, is not finite.
 */
export function integrate(f: (x: number) => number, from: number, to: number): number {
  if (from === to) return 0;
  const panels = firstPanels(f, from, to);
  const coarse = panels.reduce((sum, panel) => sum + Math.abs(area(panel)), 0);
  if (!Number.isFinite(coarse)) return Number.NaN;
  const tolerance = (RELATIVE_TOLERANCE * coarse) / FIRST_PANELS;
  return panels.reduce((sum, panel) => sum + refine(f, panel, tolerance, DEEPEST), 0);
}

function firstPanels(f: (x: number) => number, from: number, to: number): Panel[] {
  const at = (index: number) => from + ((to - from) * index) / FIRST_PANELS;
  return Array.from({ length: FIRST_PANELS }, (_, index) => {
    const [from, to] = [at(index), at(index + 1)];
    return { from, to, atFrom: f(from), atMiddle: f(middle(from, to)), atTo: f(to) };
  });
}

function refine(f: (x: number) => number, panel: Panel, tolerance: number, depth: number): number {
  const { from, to, atFrom, atMiddle, atTo } = panel;
  const centre = middle(from, to);
  const left = { from, to: centre, atFrom, atMiddle: f(middle(from, centre)), atTo: atMiddle };
  const right = { from: centre, to, atFrom: atMiddle, atMiddle: f(middle(centre, to)), atTo };
  const finer = area(left) + area(right);
  const difference = finer - area(panel);
  if (!Number.isFinite(difference)) return Number.NaN;
  // Halving divides Simpson's error by 16, so that 15 parts of it are in the difference (Richardson).
  if (depth === 0 || Math.abs(difference) <= 15 * tolerance) return finer + difference / 15;
  return refine(f, left, tolerance / 2, depth - 1) + refine(f, right, tolerance / 2, depth - 1);
}

function area({ from, to, atFrom, atMiddle, atTo }: Panel): number {
  return ((to - from) / 6) * (atFrom + 4 * atMiddle + atTo);
}

function middle(from: number, to: number): number {
  return (from + to) / 2;
}
