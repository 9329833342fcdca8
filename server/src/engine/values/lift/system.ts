import { entry, entryOr, value } from '../declare.ts';
import { GRAVITY } from '../physics.ts';
import { frictionDrop } from './friction.ts';

/** What the liquid meets between the pump and the wellhead; SI, pressures Pa absolute. */
export interface System {
  readonly density: number;
  readonly tubingPressure: number;
  readonly intakeTvd: number;
  readonly intakeMd: number;
  readonly tubingDiameter: number;
  readonly roughness: number;
  readonly viscosity: number;
}

export const SYSTEM = {
  density: value('fluid.liquid_density'),
  tubingPressure: entry('well.wellhead.tubing_pressure', 'tubing_pressure'),
  intakeTvd: value('well.intake_tvd'),
  intakeMd: entry('well.intake.md'),
  tubingDiameter: entry('well.tubing.inner_diameter'),
  roughness: entryOr(
    'well.tubing.roughness',
    0.000046,
    'drawn or commercial steel 0.046 mm, Moody chart (from memory)',
  ),
  viscosity: value('fluid.dynamic_viscosity'),
};

/** Loss to friction in the tubing at a rate (m3/s), Pa. */
export function friction(system: System, rate: number): number {
  const { intakeMd, tubingDiameter, roughness, density, viscosity } = system;
  return frictionDrop(rate, intakeMd, tubingDiameter, roughness, density, viscosity);
}

/** Pressure that the pump must stand against at a rate, Pa absolute. */
export function dischargePressure(system: System, rate: number): number {
  return system.tubingPressure + system.density * GRAVITY * system.intakeTvd + friction(system, rate);
}

/** Head that the system asks of the pump at a rate and an intake pressure, m. */
export function systemHead(system: System, rate: number, intakePressure: number): number {
  return (dischargePressure(system, rate) - intakePressure) / (system.density * GRAVITY);
}
