import { differenceKind } from '../checks/context.ts';
import { toUnit } from '../quantity/convert.ts';
import { formatMeasure, formatNumber } from '../quantity/format.ts';
import { kindNamed } from '../quantity/kinds.ts';
import type { Kind } from '../quantity/types.ts';

/** A number as a reader sees it, and as the engine computes with it. */
export interface Measured {
  readonly text: string;
  /** In the internal unit, pressures absolute; undefined where no number could be read. */
  readonly number: number | undefined;
  /** Symbol of the internal unit. */
  readonly unit: string;
}

/** By how much a number went up or down. */
export interface Difference {
  /** With its sign and unit: `+2 bar`. */
  readonly text: string;
  /** In the internal unit. */
  readonly number: number;
  /** Of the number before; undefined where it would tell nothing: of a temperature, a share, nothing at all. */
  readonly percent: number | undefined;
}

/** How the distance of two numbers in a unit is told. Between two gauges of wire it is area that counts. */
const DIFFERENCE_UNITS: Readonly<Record<string, string>> = { degC: 'K', degF: 'delta degF', AWG: 'mm2' };
/** Of these a share means nothing: the zero of their scale is no absence. */
const WITHOUT_SHARE = new Set(['temperature', 'oil_gravity', 'ratio', 'count']);

/**
 * The difference of two numbers that are counted from the same point.
 * @param before in the kind's internal unit; a pressure on the scale on which it is shown
 * @param unit in which it is told
 */
export function differenceOf(before: number, after: number, kind: Kind, unit: string): Difference {
  const number = after - before;
  const sign = number < 0 ? '-' : '+';
  return { text: `${sign}${apartText(before, after, kind, unit)}`, number, percent: percentOf(before, after, kind) };
}

function apartText(before: number, after: number, kind: Kind, unit: string): string {
  // Degrees of gravity are no multiple of a density.
  if (unit === 'degAPI') {
    const [from = 0, to = 0] = [before, after].map((each) => toUnit(each, kind, unit));
    return `${formatNumber(Math.abs(to - from))} degAPI`;
  }
  const distance = kindNamed(differenceKind(kind.name)) ?? kind;
  const text = formatMeasure(Math.abs(after - before), distance, DIFFERENCE_UNITS[unit] ?? unit);
  // A share of a share would be taken for the share itself.
  return unit === '%' ? `${text.replace(/ ?%$/, '')} percentage points` : text;
}

function percentOf(before: number, after: number, { name }: Kind): number | undefined {
  const isShared = !WITHOUT_SHARE.has(name) && before !== 0 && before > 0 === after > 0;
  return isShared || (after === 0 && before > 0) ? (100 * (after - before)) / Math.abs(before) : undefined;
}
