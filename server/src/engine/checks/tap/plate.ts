import type { CheckContext } from '../context.ts';
import type { Offer } from '../declare.ts';

export const TAP = 'setpoints.transformer.tap';
export const VOLTAGE = 'setpoints.transformer.voltage';

/** The offer to take a tap of the plate: its number, and its voltage where one is entered. */
export function tapOffer(
  context: CheckContext,
  { tap, voltage }: { readonly tap: string; readonly voltage: number },
): readonly Offer[] {
  const shown = context.show(voltage, 'voltage', VOLTAGE);
  const also = context.text(VOLTAGE) === '' ? [] : [{ key: VOLTAGE, newText: shown }];
  return [{ title: `Use tap ${tap} (${shown})`, kind: 'offer', key: TAP, newText: tap, also }];
}

/** How far a voltage ratio may be off and still be of that tap: IEC 60076-1 table 1 (from memory). */
const RATIO_TOLERANCE = 0.005;

/** Whether a voltage is that of a tap, rounding and tolerance of the ratio left aside. */
export function isRatioOf(voltage: number, plated: number): boolean {
  return Math.abs(voltage / plated - 1) <= RATIO_TOLERANCE;
}
