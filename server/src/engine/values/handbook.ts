import { CABLE_CIRCUIT } from './cable/circuit.ts';
import { CABLE_RESISTANCE } from './cable/resistance.ts';
import type { ValueDeclaration } from './declare.ts';
import { DRIVE_OUTPUT } from './drive/available.ts';
import { DENSITIES } from './fluid/densities.ts';
import { GAS_AT_INTAKE } from './fluid/gas-at-intake.ts';
import { INFLOW } from './inflow/performance.ts';
import { INTAKE_PRESSURES } from './intake/pressures.ts';
import { LIFT } from './lift/lift.ts';
import { MOTOR_OPERATION } from './motor/operation.ts';
import { MOTOR_TERMINALS } from './motor/terminals.ts';
import { MOTOR_VOLTAGES } from './motor/voltage.ts';
import { PLUNGER } from './pump/plunger.ts';
import { RATES } from './pump/rate.ts';
import { SHAFT_SPEED } from './pump/rotary-inputs.ts';
import { TIMES } from './time/times.ts';
import { TRANSFORMER_OPERATION } from './transformer/operation.ts';
import { TAP_WINDOW } from './transformer/tap-window.ts';
import { AIR } from './well/air.ts';
import { DEPTHS } from './well/depths.ts';
import { TEMPERATURES } from './well/temperature.ts';

/** Every value that the handbook knows, in the order in which a reader follows them from the well to the supply. */
export const HANDBOOK: readonly ValueDeclaration[] = [
  ...AIR,
  ...DEPTHS,
  ...TEMPERATURES,
  ...DENSITIES,
  ...INFLOW,
  ...INTAKE_PRESSURES,
  ...GAS_AT_INTAKE,
  ...PLUNGER,
  ...RATES,
  ...LIFT,
  ...SHAFT_SPEED,
  ...MOTOR_OPERATION,
  ...MOTOR_VOLTAGES,
  ...CABLE_RESISTANCE,
  ...CABLE_CIRCUIT,
  ...DRIVE_OUTPUT,
  ...TAP_WINDOW,
  ...TRANSFORMER_OPERATION,
  ...MOTOR_TERMINALS,
  ...TIMES,
];
