import type { Check } from '../declare.ts';
import { INFLOW_TARGET_ABOVE_MAXIMUM, INFLOW_TARGET_NEAR_MAXIMUM } from './target.ts';
import { INFLOW_TEST_ABOVE_RESERVOIR } from './test-above-reservoir.ts';
import { INFLOW_TEST_AND_INDEX_DISAGREE } from './test-and-index-disagree.ts';

/** Checks of the inflow. */
export const INFLOW_CHECKS: readonly Check[] = [
  INFLOW_TEST_ABOVE_RESERVOIR,
  INFLOW_TEST_AND_INDEX_DISAGREE,
  INFLOW_TARGET_ABOVE_MAXIMUM,
  INFLOW_TARGET_NEAR_MAXIMUM,
];
