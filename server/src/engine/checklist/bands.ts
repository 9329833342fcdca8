import type { Measure } from '../findings/finding.ts';
import { rounded } from './notation.ts';
import type { StepLimit } from './step.ts';

/**
 * How far a reading may be from the computed value before somebody looks into it. The rules are common practice, no
 * source; they stand in one table so that a policy can have a say later.
 */
export interface Band {
  readonly title: string;
  /** Shares of the expected value, below and above. */
  readonly below: number;
  readonly above: number;
  /** Least width to either side, in the units named; the first that the reading is in counts. */
  readonly atLeast?: Readonly<Record<string, number>>;
  /** The same below the expected value, where the two sides differ. */
  readonly atLeastBelow?: Readonly<Record<string, number>>;
}

export const BAND_SOURCE = 'common practice, no source';

export const BANDS = {
  frequency: { title: 'output frequency', below: 0.02, above: 0.02 },
  current: { title: 'currents', below: 0.2, above: 0.1 },
  voltage: { title: 'voltages at surface', below: 0.1, above: 0.1 },
  rate: { title: 'rate at surface', below: 0.2, above: 0.2 },
  pressure: { title: 'pressures', below: 0.1, above: 0.1, atLeast: { bar: 1, psi: 15, kPa: 100, MPa: 0.1 } },
  temperature: { title: 'temperatures', below: 0, above: 0, atLeast: { degC: 10, degF: 18 } },
  // The sensor is not at the hot spot: it reads up to 15 K less than the winding that is computed.
  motor_temperature: {
    title: 'motor temperature',
    below: 0,
    above: 0,
    atLeast: { degC: 10, degF: 18 },
    atLeastBelow: { degC: 25, degF: 45 },
  },
  depth: { title: 'depth by the tally', below: 0.002, above: 0.002 },
} as const satisfies Record<string, Band>;
export type BandName = keyof typeof BANDS;

/** The limits of a reading around its expected value, in its unit. */
export function bandAround({ number, unit }: Measure, name: BandName): StepLimit {
  const band: Band = BANDS[name];
  const size = Math.abs(number);
  const { below, above } = leastWidths(band, unit);
  return {
    min: rounded(number - Math.max(size * band.below, below)),
    max: rounded(number + Math.max(size * band.above, above)),
  };
}

function leastWidths(
  { atLeast, atLeastBelow }: Band,
  unit: string,
): { readonly below: number; readonly above: number } {
  const bare = bareUnit(unit);
  const above = atLeast?.[bare] ?? 0;
  return { below: atLeastBelow?.[bare] ?? above, above };
}

function bareUnit(unit: string): string {
  return unit.replace(/\([ga]\)$/, '');
}

/** The rule of a band in words, for a reading in that unit. */
export function bandRule(name: BandName, unit: string): string {
  const band: Band = BANDS[name];
  const share = sides(band.below * 100, band.above * 100, '%');
  const least = leastWidths(band, unit);
  const bare = bareUnit(unit);
  const width = sides(least.below, least.above, bare === 'degC' ? 'K' : bare);
  if (least.above === 0) return share;
  return band.above === 0 ? width : `${share}, at least ${width}`;
}

function sides(below: number, above: number, unit: string): string {
  return below === above ? `±${rounded(above)} ${unit}` : `−${rounded(below)}/+${rounded(above)} ${unit}`;
}
