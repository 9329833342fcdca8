import type { Check } from '../declare.ts';
import { GAUGE_HANGING_DEPTH } from './hanging-depth.ts';
import { GAUGE_PRESSURE_REFERENCE } from './pressure-reference.ts';
import { GAUGE_TEMPERATURE } from './temperature.ts';
import { GAUGE_TEST_VOLTAGE } from './test-voltage.ts';

/** Checks of the gauge in its well. */
export const GAUGE_CHECKS: readonly Check[] = [
  GAUGE_TEMPERATURE,
  GAUGE_HANGING_DEPTH,
  GAUGE_PRESSURE_REFERENCE,
  GAUGE_TEST_VOLTAGE,
];
