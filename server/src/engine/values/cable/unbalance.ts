import { declareValue, rows, type ValueDeclaration, value } from '../declare.ts';
import { ROOT3 } from '../physics.ts';

/**
 * Inductance by which the middle phase of a flat cable falls short of the mean of the three, H/m:
 * 0.2 µH/m·ln 2/3, whatever the spacing.
 */
const MIDDLE_PHASE_SHORTFALL = (0.2e-6 * Math.LN2) / 3;

export const CABLE_UNBALANCE: readonly ValueDeclaration[] = [
  declareValue({
    id: 'cable.natural_unbalance',
    title: 'voltage unbalance that an untransposed flat cable makes by itself',
    kind: 'ratio',
    formula: '√3·I·2π·f·L_flat·(0.2 µH/m·ln 2/3)/V_m',
    source: 'geometric mean distances of three conductors in a row, any power text',
    inputs: {
      runs: rows('equipment.cable.main', { length: 'number', shape: 'text' }),
      current: value('motor.current'),
      frequency: value('motor.frequency'),
      voltage: value('motor.voltage'),
    },
    compute: ({ runs, current, frequency, voltage }) => {
      const flat = runs.filter(({ shape }) => shape === 'flat').reduce((sum, { length }) => sum + length, 0);
      const reactance = 2 * Math.PI * frequency * flat * MIDDLE_PHASE_SHORTFALL;
      return (ROOT3 * current * reactance) / voltage;
    },
  }),
];
