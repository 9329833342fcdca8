import { declareValue, type ValueDeclaration, value } from '../declare.ts';
import { CIRCUIT_SOURCE, ROOT3 } from '../physics.ts';

export const SURFACE_POWER: readonly ValueDeclaration[] = [
  declareValue({
    id: 'motor.electrical_power',
    title: 'power that the motor takes',
    kind: 'power',
    formula: '√3·V_m·I·pf',
    source: CIRCUIT_SOURCE,
    inputs: {
      voltage: value('motor.voltage'),
      current: value('motor.current'),
      factor: value('motor.power_factor'),
    },
    compute: ({ voltage, current, factor }) => ROOT3 * voltage * current * factor,
  }),
  declareValue({
    id: 'surface.power',
    title: 'power taken at the top of the cable',
    kind: 'power',
    formula: 'P_motor + 3·I²·R_cable',
    source: CIRCUIT_SOURCE,
    inputs: {
      motor: value('motor.electrical_power'),
      current: value('motor.current'),
      resistance: value('cable.resistance'),
    },
    compute: ({ motor, current, resistance }) => motor + 3 * current ** 2 * resistance,
  }),
  declareValue({
    id: 'surface.power_factor',
    title: 'power factor at the top of the cable',
    kind: 'plain',
    formula: 'P_surface/(√3·V_surface·I)',
    source: CIRCUIT_SOURCE,
    inputs: {
      power: value('surface.power'),
      voltage: value('surface.required_voltage'),
      current: value('motor.current'),
    },
    compute: ({ power, voltage, current }) => power / (ROOT3 * voltage * current),
  }),
];
