import type { Check } from '../declare.ts';
import { GAUGE_ABSOLUTE } from './gauge-absolute.ts';
import { GAUGE_OVERRANGED } from './gauge-overranged.ts';
import { MISSING } from './missing.ts';
import { NO_GAUGE } from './no-gauge.ts';

/** The low intake-pressure trip, apart from the bounds of the windows of trip, alarm and reset. */
export const INTAKE_TRIP_CHECKS: readonly Check[] = [GAUGE_ABSOLUTE, GAUGE_OVERRANGED, MISSING, NO_GAUGE];
