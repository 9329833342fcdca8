import type { Condition } from './declare.ts';

export const LINEAR: Condition = { path: 'lift', is: ['linear'] };
export const ROTARY: Condition = { path: 'lift', is: ['rotary'] };
export const INDUCTION: Condition = { path: 'equipment.motor.type', is: ['induction'] };
export const PERMANENT_MAGNET: Condition = {
  path: 'equipment.motor.type',
  is: ['permanent_magnet', 'linear_permanent_magnet'],
};
export const LINEAR_MOTOR: Condition = { path: 'equipment.motor.type', is: ['linear_permanent_magnet'] };
export const WITH_DRIVE: Condition = { path: 'equipment.drive', present: true };
export const DIRECT_ON_LINE: Condition = { path: 'equipment.drive', present: false };
export const WITH_TRANSFORMER: Condition = { path: 'equipment.transformer', present: true };
export const TRIMMED: Condition = { path: 'setpoints.drive.voltage_mode', is: ['trimmed'] };
export const VOLTS_PER_HERTZ: Condition = { path: 'setpoints.drive.voltage_mode', is: ['volts_per_hertz'] };
export const STATIC_CASE: Condition = { caseKey: 'intake', is: ['static'] };
export const FLOWING_CASE: Condition = { caseKey: 'intake', is: ['flowing'] };
export const TRIP_CASE: Condition = { caseKey: 'intake', is: ['trip'] };
export const STATED_CASE: Condition = { caseKey: 'intake_pressure', present: true };
export const COLD_CABLE: Condition = { caseKey: 'cable', is: ['cold'] };

export function present(path: string): Condition {
  return { path, present: true };
}

export function absent(path: string): Condition {
  return { path, present: false };
}

/** How YAML says no. */
export const NO_WORDS: readonly string[] = ['no', 'No', 'NO', 'false', 'False', 'FALSE', 'off', 'Off', 'OFF'];

/** Conditions under which a protection is entered and not switched off. */
export function switchedOn(protection: string): readonly Condition[] {
  return [present(`setpoints.protection.${protection}`), ...notSwitchedOff(protection)];
}

/** The same for one that every unit needs: where it is not entered yet, its window says what to enter. */
export function notSwitchedOff(protection: string): readonly Condition[] {
  return [{ path: `setpoints.protection.${protection}.enabled`, isNot: NO_WORDS }];
}
