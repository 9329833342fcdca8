import type { Check } from '../declare.ts';
import { RESERVOIR_BUBBLE_POINT_DISAGREES } from './bubble-point-disagrees.ts';
import { RESERVOIR_PRESSURE_GRADIENT, RESERVOIR_TEMPERATURE_GRADIENT } from './gradients.ts';

/** Checks of the reservoir. */
export const RESERVOIR_CHECKS: readonly Check[] = [
  RESERVOIR_PRESSURE_GRADIENT,
  RESERVOIR_TEMPERATURE_GRADIENT,
  RESERVOIR_BUBBLE_POINT_DISAGREES,
];
