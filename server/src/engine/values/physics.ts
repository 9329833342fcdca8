/** Standard acceleration of free fall, m/s2 (exact by definition; ISO 80000-3). */
export const GRAVITY = 9.80665;

/** √3: between the voltages of a three-phase system, and its three currents. */
export const ROOT3 = Math.sqrt(3);

export const GRAVITY_SOURCE = 'hydrostatics, g = 9.80665 m/s2 (ISO 80000-3)';
export const CIRCUIT_SOURCE = 'circuit law, three-phase, per phase';

/** Area of a circle, m2, from its diameter, m. */
export function circleArea(diameter: number): number {
  return (Math.PI / 4) * diameter ** 2;
}
