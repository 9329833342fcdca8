import type { Check } from '../declare.ts';
import { START_OVERRIDE_AT_EVERY_START, START_OVERRIDE_UNLIMITED } from '../start/override.ts';
import { RESTART_AFTER_SHORT_CIRCUIT } from './after-fault.ts';
import { RESTART_UNLIMITED, RESTART_WINDOW_TOO_SHORT } from './count.ts';

/** Checks of start and restart that are no bounds of a window. */
export const RESTART_CHECKS: readonly Check[] = [
  RESTART_AFTER_SHORT_CIRCUIT,
  RESTART_WINDOW_TOO_SHORT,
  RESTART_UNLIMITED,
  START_OVERRIDE_UNLIMITED,
  START_OVERRIDE_AT_EVERY_START,
];
