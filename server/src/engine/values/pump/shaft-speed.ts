import { bracketedRoot } from '../numeric/roots.ts';

/**
 * Shaft speed of the pump over that of its curve. With the poles known, the synchronous speed less slip in proportion
 * to load; otherwise the ratio of frequencies.
 */
export interface Shaft {
  /** Hz. */
  readonly frequency: number;
  readonly ratedFrequency: number;
  /** W at the rated frequency. */
  readonly ratedPower: number;
  /** Synchronous speed at this frequency over the curve's speed, or frequency over the curve's frequency. */
  readonly noLoadRatio: number;
  /** Slip at rated load as a fraction; 0 for a synchronous machine. */
  readonly ratedSlip: number;
}

const ROUNDS = 60;
const CLOSE = 1e-10;

/** Load of the motor: shaft power over the rated power, which goes with the frequency. */
export function loadOf(shaft: Shaft, power: number): number {
  return power / ((shaft.ratedPower * shaft.frequency) / shaft.ratedFrequency);
}

/**
 * The speed ratio at which the slip agrees with the load that it gives.
 * @param powerAt shaft power of the pump at a speed ratio, W; NaN below the ratio that still covers its rate
 * @param lowest ratio down to which there is a power
 * @returns NaN if the two do not settle
 */
export function settledRatio(shaft: Shaft, powerAt: (ratio: number) => number, lowest = 0): number {
  if (shaft.ratedSlip === 0) return shaft.noLoadRatio;
  const slipped = (ratio: number) => shaft.noLoadRatio * (1 - shaft.ratedSlip * loadOf(shaft, powerAt(ratio)));
  let ratio = shaft.noLoadRatio;
  for (let round = 0; round < ROUNDS && Number.isFinite(ratio); round++) {
    const next = slipped(ratio);
    if (Math.abs(next - ratio) < CLOSE) return next;
    ratio = next;
  }
  // A heavily loaded shaft overshoots below the speed at which the pump's curve still covers the rate.
  return lowest > 0 ? bracketedRoot((at) => slipped(at) - at, lowest, shaft.noLoadRatio) : Number.NaN;
}
