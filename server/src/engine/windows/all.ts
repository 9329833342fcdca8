import type { Window } from './declare.ts';
import { BASE_FREQUENCY, MAXIMUM_FREQUENCY, MINIMUM_FREQUENCY } from './frequencies.ts';
import { INTAKE_PRESSURE_ALARM } from './intake-pressure-alarm.ts';
import { INTAKE_PRESSURE_RESET } from './intake-pressure-reset.ts';
import { INTAKE_PRESSURE_TRIP } from './intake-pressure-trip.ts';
import { MOTOR_TEMPERATURE_TRIP } from './motor-temperature-trip.ts';
import { OVERLOAD_TRIP } from './overload-trip.ts';
import { RESTART_DELAY } from './restart-delay.ts';
import { SHORT_CIRCUIT_TRIP } from './short-circuit-trip.ts';
import { START_OVERRIDE } from './start-override.ts';
import { STROKE_LENGTH_WINDOW, STROKE_RATE_WINDOW } from './stroke.ts';
import { TAP } from './tap.ts';
import { CURRENT_UNBALANCE_TRIP, VOLTAGE_UNBALANCE_ALARM, VOLTAGE_UNBALANCE_TRIP } from './unbalance-trips.ts';
import { UNDERLOAD_TRIP } from './underload-trip.ts';
import { OVERVOLTAGE_TRIP, UNDERVOLTAGE_TRIP } from './voltage-trips.ts';

/** The windows of all setpoints, in the order of the format. */
export const WINDOWS: readonly Window[] = [
  STROKE_RATE_WINDOW,
  STROKE_LENGTH_WINDOW,
  TAP,
  BASE_FREQUENCY,
  MINIMUM_FREQUENCY,
  MAXIMUM_FREQUENCY,
  OVERLOAD_TRIP,
  UNDERLOAD_TRIP,
  SHORT_CIRCUIT_TRIP,
  CURRENT_UNBALANCE_TRIP,
  OVERVOLTAGE_TRIP,
  UNDERVOLTAGE_TRIP,
  VOLTAGE_UNBALANCE_TRIP,
  VOLTAGE_UNBALANCE_ALARM,
  INTAKE_PRESSURE_TRIP,
  INTAKE_PRESSURE_ALARM,
  INTAKE_PRESSURE_RESET,
  MOTOR_TEMPERATURE_TRIP,
  START_OVERRIDE,
  RESTART_DELAY,
];
