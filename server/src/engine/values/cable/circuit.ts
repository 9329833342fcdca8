import { declareValue, type ValueDeclaration, value } from '../declare.ts';
import { approximateDrop, sendingVoltage } from '../electrical/phasor.ts';
import { CIRCUIT_SOURCE } from '../physics.ts';

/** Inputs of the circuit from the motor's terminals up to the surface. */
export const MOTOR_CIRCUIT = {
  voltage: value('motor.voltage'),
  current: value('motor.current'),
  powerFactor: value('motor.power_factor'),
  resistance: value('cable.resistance'),
  reactance: value('cable.reactance'),
};

export const CABLE_CIRCUIT: readonly ValueDeclaration[] = [
  declareValue({
    id: 'surface.required_voltage',
    title: 'voltage needed at the top of the cable',
    kind: 'voltage',
    formula: '|V_m + √3·I·(cos φ − j·sin φ)·(R_c + j·X_c)|',
    source: CIRCUIT_SOURCE,
    inputs: MOTOR_CIRCUIT,
    compute: ({ voltage, current, powerFactor, resistance, reactance }) =>
      sendingVoltage(voltage, current, powerFactor, resistance, reactance),
  }),
  declareValue({
    id: 'cable.voltage_drop',
    title: 'voltage drop in the cable',
    kind: 'voltage',
    formula: '|V_surface| − |V_motor|',
    source: CIRCUIT_SOURCE,
    inputs: { surface: value('surface.required_voltage'), motor: value('motor.voltage') },
    compute: ({ surface, motor }) => surface - motor,
  }),
  declareValue({
    id: 'cable.approximate_drop',
    title: 'voltage drop in the cable by the approximate form, for comparison',
    kind: 'voltage',
    formula: '√3·I·(R·cos φ + X·sin φ)',
    source: 'IEEE 141-1993 3.11 (from memory)',
    inputs: MOTOR_CIRCUIT,
    compute: ({ current, powerFactor, resistance, reactance }) =>
      approximateDrop(current, powerFactor, resistance, reactance),
  }),
];
