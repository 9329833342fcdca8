import type { Check } from '../declare.ts';
import { NAMEPLATE_CURRENTS_OUT_OF_ORDER } from './currents-out-of-order.ts';
import { NAMEPLATE_DIFFERS } from './differs.ts';
import { NAMEPLATE_INCONSISTENT } from './inconsistent.ts';
import { NAMEPLATE_SERIAL_MISSING } from './serial-missing.ts';
import { NAMEPLATE_SERIAL_REPEATED } from './serial-repeated.ts';

/** Checks of what plates and data sheets say. */
export const NAMEPLATE_CHECKS: readonly Check[] = [
  NAMEPLATE_DIFFERS,
  NAMEPLATE_INCONSISTENT,
  NAMEPLATE_CURRENTS_OUT_OF_ORDER,
  NAMEPLATE_SERIAL_MISSING,
  NAMEPLATE_SERIAL_REPEATED,
];
