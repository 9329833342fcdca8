import { declareValue, type ValueDeclaration, value } from '../declare.ts';
import { GRAVITY, GRAVITY_SOURCE } from '../physics.ts';
import { dischargePressure, friction, SYSTEM } from './system.ts';

export const LIFT: readonly ValueDeclaration[] = [
  declareValue({
    id: 'lift.friction',
    title: 'friction in the tubing',
    kind: 'pressure_difference',
    formula: 'f·L/d·ρ·v²/2 over the length along hole',
    source: 'Darcy–Weisbach, friction factor by Churchill 1977 (from memory)',
    inputs: { ...SYSTEM, rate: value('pump.rate') },
    compute: ({ rate, ...system }) => friction(system, rate),
  }),
  declareValue({
    id: 'lift.discharge_pressure',
    title: 'pressure at the pump discharge',
    kind: 'pressure',
    formula: 'p_tubing + ρ·g·tvd_intake + friction',
    source: GRAVITY_SOURCE,
    inputs: { ...SYSTEM, rate: value('pump.rate') },
    compute: ({ rate, ...system }) => dischargePressure(system, rate),
  }),
  declareValue({
    id: 'lift.differential_pressure',
    title: 'pressure that the pump adds',
    kind: 'pressure_difference',
    formula: 'p_discharge − p_intake',
    source: 'definition',
    inputs: { discharge: value('lift.discharge_pressure'), intake: value('intake.pressure') },
    compute: ({ discharge, intake }) => discharge - intake,
  }),
  declareValue({
    id: 'lift.head',
    title: 'head that the pump adds',
    kind: 'length',
    formula: 'Δp/(ρ·g)',
    source: GRAVITY_SOURCE,
    inputs: { difference: value('lift.differential_pressure'), density: value('fluid.liquid_density') },
    compute: ({ difference, density }) => difference / (density * GRAVITY),
  }),
  declareValue({
    id: 'lift.hydraulic_power',
    title: 'power given to the liquid',
    kind: 'power',
    formula: 'Q·Δp',
    source: 'definition',
    inputs: { rate: value('pump.rate'), difference: value('lift.differential_pressure') },
    compute: ({ rate, difference }) => rate * difference,
  }),
];
