import { optionalRows, optionalValue, type Seen } from '../../values/declare.ts';
import { meantByRoot3 } from '../../windows/root3.ts';
import type { Verdict } from '../declare.ts';

/** What tells whether another tap on the plate would mend something. */
export const TAP_CHOICE = {
  taps: optionalRows('equipment.transformer.taps', { tap: 'text', voltage: 'number' }),
  tap: optionalValue('transformer.tap_voltage'),
  least: optionalValue('transformer.tap_min'),
  most: optionalValue('transformer.tap_max'),
};
export type TapChoice = Seen<typeof TAP_CHOICE>;

/** Whether a tap of the plate serves every case and takes no more than a share of the voltage of the one that is set. */
export function mendedByLowerTap(
  { taps = [], tap, least }: Pick<TapChoice, 'taps' | 'tap' | 'least'>,
  share: number,
): boolean {
  if (tap === undefined || least === undefined) return false;
  return taps.some(({ voltage }) => voltage >= least && voltage <= tap * share);
}

/** Whether the tap that is set is too low and a higher voltage serves every case: of another tap, or of this with √3. */
export function mendedByHigherTap({ taps = [], tap, least, most }: TapChoice): boolean {
  if (tap === undefined || least === undefined || most === undefined || tap >= least) return false;
  const isListed = taps.some(({ voltage }) => voltage >= least && voltage <= most);
  return isListed || meantByRoot3(tap, least, most) !== undefined;
}

/** Names a finding as a consequence of another check's, if it is one. */
export function following(verdict: Verdict, isConsequence: boolean, ...causes: readonly string[]): Verdict {
  if (verdict === undefined || !isConsequence || !('message' in verdict)) return verdict;
  return { ...verdict, follows: causes };
}
