import type { Check } from '../declare.ts';
import { PUMP_CASE_STROKE_RATE } from './case-stroke-rate.ts';
import { PUMP_CLOSED_VALVE_PRESSURE } from './closed-valve-pressure.ts';
import { PUMP_CURVE_NOT_FALLING } from './curve-not-falling.ts';
import { PUMP_CURVE_SPEED } from './curve-speed.ts';
import { PUMP_CYCLE_INCONSISTENT } from './cycle-inconsistent.ts';
import { PUMP_FREE_GAS, PUMP_GAS_INTERFERENCE } from './gas.ts';
import { PUMP_NO_OPERATING_POINT } from './no-operating-point.ts';
import { PUMP_OUTPACES_INFLOW } from './outpaces-inflow.ts';
import { PUMP_DIFFERENTIAL_PRESSURE, PUMP_SHAFT_POWER, PUMP_THRUST } from './ratings.ts';
import { PUMP_OUTSIDE_RECOMMENDED_RANGE, PUMP_RECOMMENDED_RANGE } from './recommended-range.ts';
import { PUMP_ABOVE_TARGET, PUMP_SHORT_OF_TARGET } from './target.ts';
import { PUMP_VISCOUS_FLUID } from './viscous-fluid.ts';
import { PUMP_WRONG_TYPE } from './wrong-type.ts';

/** Checks of the pump that are no bounds of a window. */
export const PUMP_CHECKS: readonly Check[] = [
  PUMP_WRONG_TYPE,
  PUMP_NO_OPERATING_POINT,
  PUMP_SHORT_OF_TARGET,
  PUMP_ABOVE_TARGET,
  PUMP_OUTSIDE_RECOMMENDED_RANGE,
  PUMP_RECOMMENDED_RANGE,
  PUMP_CURVE_NOT_FALLING,
  PUMP_CURVE_SPEED,
  PUMP_SHAFT_POWER,
  PUMP_DIFFERENTIAL_PRESSURE,
  PUMP_THRUST,
  PUMP_OUTPACES_INFLOW,
  PUMP_FREE_GAS,
  PUMP_GAS_INTERFERENCE,
  PUMP_VISCOUS_FLUID,
  PUMP_CASE_STROKE_RATE,
  PUMP_CYCLE_INCONSISTENT,
  PUMP_CLOSED_VALVE_PRESSURE,
];
