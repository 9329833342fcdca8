import { PSI } from './field-units.ts';

/** What comes to the intake for each volume of liquid at the surface. */
export interface IntakeStream {
  /** Water over liquid at the surface, 0..1. */
  readonly waterCut: number;
  /** Gas over oil at the surface, m3/m3. */
  readonly gasOilRatio: number;
  /** Gas in solution at the intake, m3/m3. */
  readonly solutionGas: number;
  /** Volume of oil at the intake over that at standard conditions. */
  readonly oilVolumeFactor: number;
  /** Volume of gas at the intake over that at standard conditions. */
  readonly gasVolumeFactor: number;
  /** Shares of the free gas that each separation in turn turns away, 0..1: natural, then fitted. */
  readonly separations: readonly number[];
}

/** Free gas that enters the pump, by volume at the intake. */
export interface FreeGas {
  /** q_g/q_l, over the liquid. */
  readonly perLiquid: number;
  /** q_g/(q_g + q_l), over everything. */
  readonly fraction: number;
}

/**
 * Free gas at the intake: q_g = q_o (GOR - Rs) Bg (1 - separation), q_l = q_o Bo + q_w, the water volume factor
 * being 1. Source: material balance, common to any text on lift. No free gas when the oil can hold more than it has.
 *
 * @returns NaN in both fields when a share is outside 0..1, or another input is negative or missing.
 */
export function freeGasRatio(stream: IntakeStream): FreeGas {
  if (!isStream(stream)) return { perLiquid: Number.NaN, fraction: Number.NaN };
  const oil = 1 - stream.waterCut;
  const entering = stream.separations.reduce((share, separation) => share * (1 - separation), 1);
  const gas = oil * Math.max(0, stream.gasOilRatio - stream.solutionGas) * stream.gasVolumeFactor * entering;
  const liquid = oil * stream.oilVolumeFactor + stream.waterCut;
  return { perLiquid: gas / liquid, fraction: gas / (gas + liquid) };
}

/**
 * Gas interference of a rotary pump: 2000 (q_g/q_l)/(3 p), p in psia. Below 1 the pump is stable.
 * Source: Turpin, Lea and Bearden 1986 (from memory).
 *
 * @param ratio q_g/q_l at the intake.
 * @param pressurePa intake pressure, absolute.
 * @returns NaN when the pressure is not above zero or the ratio is negative.
 */
export function turpin(ratio: number, pressurePa: number): number {
  return pressurePa > 0 && ratio >= 0 ? (2000 * ratio) / ((3 * pressurePa) / PSI) : Number.NaN;
}

function isStream(stream: IntakeStream): boolean {
  const volumes = [stream.gasOilRatio, stream.solutionGas, stream.gasVolumeFactor];
  return (
    [stream.waterCut, ...stream.separations].every((share) => share >= 0 && share <= 1) &&
    volumes.every((volume) => volume >= 0 && volume < Number.POSITIVE_INFINITY) &&
    stream.oilVolumeFactor > 0
  );
}
