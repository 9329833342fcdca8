import type { Check } from '../declare.ts';
import { BELOW_MINIMUM_FREQUENCY } from './below-minimum-frequency.ts';
import { CORE_FLUX, SATURATES } from './core.ts';
import { NEAR_RATING, OVERLOAD, WINDING_CURRENT } from './loading.ts';
import { PRIMARY_MISMATCH } from './primary-mismatch.ts';
import { STAR_POINT_CHECK } from './star-point.ts';
import { TAPS_OUT_OF_ORDER } from './taps-out-of-order.ts';

/** The transformer and its load. */
export const TRANSFORMER_CHECKS: readonly Check[] = [
  BELOW_MINIMUM_FREQUENCY,
  CORE_FLUX,
  NEAR_RATING,
  OVERLOAD,
  PRIMARY_MISMATCH,
  SATURATES,
  STAR_POINT_CHECK,
  TAPS_OUT_OF_ORDER,
  WINDING_CURRENT,
];
