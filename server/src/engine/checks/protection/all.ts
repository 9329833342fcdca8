import type { Check } from '../declare.ts';
import { EARTH_FAULT_LOW } from '../earth-fault/low.ts';
import { OVERLOAD_WRONG_SIDE } from '../overload/wrong-side.ts';
import { STALL_ON_THE_AVERAGE } from '../stall/on-the-average.ts';
import { STANDSTILL_CHECKS } from '../stall/standstill.ts';
import { UNDERLOAD_ABOVE_OVERLOAD } from '../underload/above-overload.ts';
import { VOLTAGE_WRONG_SIDE } from '../voltage/wrong-side.ts';
import { WELLHEAD_PRESSURE_ABOVE_RATING } from '../wellhead-pressure/above-rating.ts';
import {
  PROTECTION_DELAY_SHORTER_THAN_GAUGE,
  PROTECTION_DELAY_SHORTER_THAN_STROKE,
  PROTECTION_DELAY_UNUSUAL,
  PROTECTION_NO_DELAY,
} from './delays.ts';
import { PROTECTION_NO_GAUGE, PROTECTION_OUTSIDE_GAUGE } from './gauge.ts';
import { PROTECTION_MISSING } from './missing.ts';
import { PROTECTION_ORDER } from './order.ts';
import { PROTECTION_ENTERED_AS_PERCENTAGE } from './percentage.ts';
import { PROTECTION_WARNS_ONLY } from './responses.ts';
import {
  DISCHARGE_PRESSURE_BELOW_RUNNING,
  INTAKE_TEMPERATURE_BELOW_RUNNING,
  WELLHEAD_PRESSURE_BELOW_RUNNING,
} from './running.ts';

/** Checks of the protections that are no bounds of a window. */
export const PROTECTION_CHECKS: readonly Check[] = [
  PROTECTION_MISSING,
  PROTECTION_NO_DELAY,
  PROTECTION_DELAY_UNUSUAL,
  PROTECTION_DELAY_SHORTER_THAN_STROKE,
  PROTECTION_DELAY_SHORTER_THAN_GAUGE,
  PROTECTION_ORDER,
  PROTECTION_NO_GAUGE,
  PROTECTION_OUTSIDE_GAUGE,
  PROTECTION_ENTERED_AS_PERCENTAGE,
  PROTECTION_WARNS_ONLY,
  OVERLOAD_WRONG_SIDE,
  UNDERLOAD_ABOVE_OVERLOAD,
  VOLTAGE_WRONG_SIDE,
  EARTH_FAULT_LOW,
  ...STANDSTILL_CHECKS,
  STALL_ON_THE_AVERAGE,
  WELLHEAD_PRESSURE_BELOW_RUNNING,
  WELLHEAD_PRESSURE_ABOVE_RATING,
  DISCHARGE_PRESSURE_BELOW_RUNNING,
  INTAKE_TEMPERATURE_BELOW_RUNNING,
];
