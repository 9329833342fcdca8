import type { Check } from '../declare.ts';
import { FIT_CLEARANCE } from './clearance.ts';

/** Checks of what fits into the casing. */
export const FIT_CHECKS: readonly Check[] = [FIT_CLEARANCE];
