import { CABLE_BY_SECTION } from './cable/by-section.ts';
import { CABLE_CIRCUIT } from './cable/circuit.ts';
import { CABLE_RESISTANCE } from './cable/resistance.ts';
import { START_AND_FAULT } from './cable/start-and-fault.ts';
import { CABLE_UNBALANCE } from './cable/unbalance.ts';
import type { ValueDeclaration } from './declare.ts';
import { DRIVE_OUTPUT } from './drive/available.ts';
import { DRIVE_LIMIT } from './drive/limit.ts';
import { FIT } from './fit/clearance.ts';
import { DENSITIES } from './fluid/densities.ts';
import { GAS_AT_INTAKE } from './fluid/gas-at-intake.ts';
import { GAS_AT_TRIP } from './fluid/gas-at-trip.ts';
import { VISCOSITIES } from './fluid/viscosity.ts';
import { HANDLING } from './handling/lift.ts';
import { INFLOW } from './inflow/performance.ts';
import { TARGET } from './inflow/target.ts';
import { INTAKE_PRESSURES } from './intake/pressures.ts';
import { LIFT } from './lift/lift.ts';
import { NAMEPLATE } from './motor/nameplate.ts';
import { MOTOR_OPERATION } from './motor/operation.ts';
import { RUNNING_RANGE } from './motor/running-range.ts';
import { MOTOR_TERMINALS } from './motor/terminals.ts';
import { MOTOR_VOLTAGES } from './motor/voltage.ts';
import { PROTECTION_CURRENTS } from './protection/currents.ts';
import { HEALTHY_VOLTAGES } from './protection/voltages.ts';
import { CLOSED_VALVE } from './pump/closed-valve.ts';
import { PLUNGER } from './pump/plunger.ts';
import { RATES } from './pump/rate.ts';
import { SHAFT_SPEED } from './pump/rotary-inputs.ts';
import { SHUT_OFF } from './pump/shut-off.ts';
import { EXPECTED_READINGS } from './readings/expected.ts';
import { GRADIENTS } from './reservoir/gradients.ts';
import { SURFACE_POWER } from './surface/power.ts';
import { TIMES } from './time/times.ts';
import { HIGHEST_FREQUENCY } from './transformer/highest-frequency.ts';
import { TRANSFORMER_OPERATION } from './transformer/operation.ts';
import { TAP_WINDOW } from './transformer/tap-window.ts';
import { AIR } from './well/air.ts';
import { DEPTHS } from './well/depths.ts';
import { DOGLEGS } from './well/dogleg.ts';
import { TEMPERATURES } from './well/temperature.ts';

/** Every value that the handbook knows, in the order in which a reader follows them from the well to the supply. */
export const HANDBOOK: readonly ValueDeclaration[] = [
  ...AIR,
  ...DEPTHS,
  ...DOGLEGS,
  ...TEMPERATURES,
  ...GRADIENTS,
  ...DENSITIES,
  ...VISCOSITIES,
  ...INFLOW,
  ...TARGET,
  ...INTAKE_PRESSURES,
  ...GAS_AT_INTAKE,
  ...GAS_AT_TRIP,
  ...PLUNGER,
  ...RATES,
  ...LIFT,
  ...SHAFT_SPEED,
  ...SHUT_OFF,
  ...NAMEPLATE,
  ...MOTOR_OPERATION,
  ...RUNNING_RANGE,
  ...MOTOR_VOLTAGES,
  ...CABLE_RESISTANCE,
  ...CABLE_BY_SECTION,
  ...CABLE_CIRCUIT,
  ...CABLE_UNBALANCE,
  ...SURFACE_POWER,
  ...START_AND_FAULT,
  ...DRIVE_OUTPUT,
  ...DRIVE_LIMIT,
  ...TAP_WINDOW,
  ...TRANSFORMER_OPERATION,
  ...HIGHEST_FREQUENCY,
  ...MOTOR_TERMINALS,
  ...CLOSED_VALVE,
  ...PROTECTION_CURRENTS,
  ...HEALTHY_VOLTAGES,
  ...TIMES,
  ...HANDLING,
  ...FIT,
  ...EXPECTED_READINGS,
];
