import type { Check } from '../declare.ts';
import { FRACTION_FOR_PERCENT } from './fraction-for-percent.ts';
import { IMPLAUSIBLE } from './implausible.ts';
import { MISSING } from './missing.ts';
import { MIXED_SYSTEMS } from './mixed-systems.ts';
import { REFERENCE_UNSTATED } from './reference-unstated.ts';
import { RISE_FOR_POINT } from './rise-for-point.ts';
import { THOUSANDS_SEPARATOR } from './thousands-separator.ts';
import { TWO_READINGS_DISAGREE } from './two-readings-disagree.ts';
import { UNKNOWN } from './unknown.ts';
import { WRONG_DIMENSION } from './wrong-dimension.ts';

/** How quantities are written. */
export const UNIT_CHECKS: readonly Check[] = [
  FRACTION_FOR_PERCENT,
  IMPLAUSIBLE,
  MISSING,
  MIXED_SYSTEMS,
  REFERENCE_UNSTATED,
  RISE_FOR_POINT,
  THOUSANDS_SEPARATOR,
  TWO_READINGS_DISAGREE,
  UNKNOWN,
  WRONG_DIMENSION,
];
