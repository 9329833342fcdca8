import type { Check } from '../declare.ts';
import { GAUGE_TEMPERATURE } from './temperature.ts';

/** Checks of the gauge in its well. */
export const GAUGE_CHECKS: readonly Check[] = [GAUGE_TEMPERATURE];
