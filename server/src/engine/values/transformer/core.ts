import { entry, limit, type Seen, value } from '../declare.ts';
import { sendingVoltage } from '../electrical/phasor.ts';
import { ROOT3 } from '../physics.ts';

/** A transformer by its plate: VA, V, Hz; impedance and load loss (W) as given at rated power. */
export const TRANSFORMER = {
  power: entry('equipment.transformer.power'),
  primary: entry('equipment.transformer.primary_voltage'),
  ratedFrequency: entry('equipment.transformer.frequency'),
  impedance: entry('equipment.transformer.impedance'),
  loadLoss: entry('equipment.transformer.load_loss'),
};
export type Transformer = Seen<typeof TRANSFORMER>;

/** What flows in the circuit at the surface in a case: V, A, Hz; `resistance` and `reactance` of the cable, ohm. */
export const LOAD = {
  voltage: value('motor.voltage'),
  current: value('motor.current'),
  powerFactor: value('motor.power_factor'),
  resistance: value('cable.resistance'),
  reactance: value('cable.reactance'),
  frequency: value('motor.frequency'),
};
export type Load = Seen<typeof LOAD>;

/** Limits of the core's flux over rated: at no load, and what full load takes off. */
export const FLUX = { fluxNoLoad: limit('transformer.flux.error') };
const FULL_LOAD_REDUCTION = 0.05;

export const TRANSFORMER_SOURCE = 'equivalent circuit of a transformer by impedance and load loss, any machines text';
export const FLUX_SOURCE = 'IEC 60076-1 5.4.3, 1.10 − 0.05·K (from memory)';

/** Short-circuit resistance seen from a tap, ohm per phase. */
export function tapResistance({ power, loadLoss }: Transformer, tap: number): number {
  return ((loadLoss / power) * tap ** 2) / power;
}

/** Short-circuit reactance seen from a tap at a frequency, ohm per phase. NaN if the loss exceeds the impedance. */
export function tapReactance(transformer: Transformer, tap: number, frequency: number): number {
  const { power, loadLoss, impedance, ratedFrequency } = transformer;
  const reactive = Math.sqrt(impedance ** 2 - (loadLoss / power) ** 2);
  return (((reactive * tap ** 2) / power) * frequency) / ratedFrequency;
}

/** Emf that the transformer must have at a tap to feed the load, V line to line. */
export function emfAt(transformer: Transformer, load: Load, tap: number): number {
  return sendingVoltage(
    load.voltage,
    load.current,
    load.powerFactor,
    load.resistance + tapResistance(transformer, tap),
    load.reactance + tapReactance(transformer, tap, load.frequency),
  );
}

/** Voltage of the drive that makes that emf at a tap, V. */
export function neededDriveVoltage(transformer: Transformer, load: Load, tap: number): number {
  return (emfAt(transformer, load, tap) * transformer.primary) / tap;
}

/** Current over the rated current of that tap, at most 1: the load factor K of the flux limit. */
export function loadFactor({ power }: Transformer, current: number, tap: number): number {
  return Math.min(1, current / (power / (ROOT3 * tap)));
}

/** Flux over rated that the core stands at a load factor. */
export function fluxLimit(noLoad: number, factor: number): number {
  return noLoad - FULL_LOAD_REDUCTION * factor;
}

/** Highest voltage on the primary that the core stands at a frequency and current, V. */
export function saturationVoltage(
  transformer: Transformer,
  noLoad: number,
  at: { readonly frequency: number; readonly current: number; readonly tap: number },
): number {
  const limit = fluxLimit(noLoad, loadFactor(transformer, at.current, at.tap));
  return (limit * transformer.primary * at.frequency) / transformer.ratedFrequency;
}
