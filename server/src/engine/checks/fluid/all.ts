import type { Check } from '../declare.ts';
import { FLUID_CASE_LIGHTER_THAN_PRODUCED, FLUID_DENSITIES_INVERTED, FLUID_KILL_FLUID_TOO_LIGHT } from './densities.ts';

/** Checks of the liquids. */
export const FLUID_CHECKS: readonly Check[] = [
  FLUID_DENSITIES_INVERTED,
  FLUID_CASE_LIGHTER_THAN_PRODUCED,
  FLUID_KILL_FLUID_TOO_LIGHT,
];
