export const TAP = 'setpoints.transformer.tap';
export const VOLTAGE = 'setpoints.transformer.voltage';

/** How far a voltage ratio may be off and still be of that tap: IEC 60076-1 table 1 (from memory). */
const RATIO_TOLERANCE = 0.005;

/** Whether a voltage is that of a tap, rounding and tolerance of the ratio left aside. */
export function isRatioOf(voltage: number, plated: number): boolean {
  return Math.abs(voltage / plated - 1) <= RATIO_TOLERANCE;
}
