import type { Check } from '../declare.ts';
import { BASE_FREQUENCY_UNLIKE_MOTOR } from './base-frequency.ts';
import { NEAR_RATING, OVERCURRENT } from './loading.ts';
import { NO_FILTER } from './no-filter.ts';
import { RAMP } from './ramp.ts';
import { SETTINGS_WITHOUT_DRIVE } from './settings-without-drive.ts';
import { INPUT_MISMATCH, SUPPLY_FREQUENCY } from './supply.ts';

/** The drive, apart from the bounds of the windows of its frequencies. */
export const DRIVE_CHECKS: readonly Check[] = [
  BASE_FREQUENCY_UNLIKE_MOTOR,
  INPUT_MISMATCH,
  NEAR_RATING,
  NO_FILTER,
  OVERCURRENT,
  RAMP,
  SETTINGS_WITHOUT_DRIVE,
  SUPPLY_FREQUENCY,
];
