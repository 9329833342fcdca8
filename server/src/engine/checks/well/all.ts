import type { Check } from '../declare.ts';
import {
  WELL_INTAKE_BELOW_PERFORATIONS,
  WELL_NEGATIVE_DEPTH,
  WELL_SURVEY_DISAGREES,
  WELL_SURVEY_ORDER,
  WELL_TVD_EXCEEDS_MD,
} from './depths.ts';
import { WELL_DOGLEG } from './dogleg.ts';
import { WELL_HOTTER_AT_THE_TOP } from './hotter-at-the-top.ts';
import { WELL_LEVEL_BELOW_INTAKE } from './level-below-intake.ts';
import { WELL_TUBING_ABOVE_RATING, WELL_TUBING_IN_CASING, WELL_TUBING_WALL } from './tubulars.ts';

/** Checks of the hole and what hangs in it. */
export const WELL_CHECKS: readonly Check[] = [
  WELL_TVD_EXCEEDS_MD,
  WELL_SURVEY_ORDER,
  WELL_NEGATIVE_DEPTH,
  WELL_SURVEY_DISAGREES,
  WELL_DOGLEG,
  WELL_INTAKE_BELOW_PERFORATIONS,
  WELL_TUBING_IN_CASING,
  WELL_TUBING_WALL,
  WELL_TUBING_ABOVE_RATING,
  WELL_LEVEL_BELOW_INTAKE,
  WELL_HOTTER_AT_THE_TOP,
];
