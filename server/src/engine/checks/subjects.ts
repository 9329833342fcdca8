import { CABLE_CHECKS } from './cable/all.ts';
import { CONNECTION_CHECKS } from './connection/all.ts';
import type { Check } from './declare.ts';
import { FIT_CHECKS } from './fit/all.ts';
import { FLUID_CHECKS } from './fluid/all.ts';
import { GAUGE_CHECKS } from './gauge/all.ts';
import { IDENTITY_CHECKS } from './identity/all.ts';
import { INFLOW_CHECKS } from './inflow/all.ts';
import { INSPECTION_INSTRUMENT_VOLTAGE } from './inspection/instrument-voltage.ts';
import { MOTOR_CHECKS } from './motor/all.ts';
import { NAMEPLATE_CHECKS } from './nameplate/all.ts';
import { PUMP_CHECKS } from './pump/all.ts';
import { RESERVOIR_CHECKS } from './reservoir/all.ts';
import { REVISION_CHECKS } from './revision/all.ts';
import { SITE_CHECKS } from './site/all.ts';
import { WELL_CHECKS } from './well/all.ts';

/** Checks of one installation's well and equipment, apart from its setpoints. */
export const SUBJECT_CHECKS: readonly Check[] = [
  ...IDENTITY_CHECKS,
  ...REVISION_CHECKS,
  ...NAMEPLATE_CHECKS,
  ...SITE_CHECKS,
  ...WELL_CHECKS,
  ...FIT_CHECKS,
  ...RESERVOIR_CHECKS,
  ...INFLOW_CHECKS,
  ...FLUID_CHECKS,
  ...PUMP_CHECKS,
  ...MOTOR_CHECKS,
  ...CABLE_CHECKS,
  ...GAUGE_CHECKS,
  ...CONNECTION_CHECKS,
  INSPECTION_INSTRUMENT_VOLTAGE,
];
