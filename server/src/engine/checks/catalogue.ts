import type { CheckTexts } from '../findings/texts.ts';
import { WINDOWS } from '../windows/all.ts';
import { ACROSS_CHECKS } from './across/all.ts';
import type { Check } from './declare.ts';
import { DEVIATION_CHECKS } from './deviation/texts.ts';
import { DOCUMENT_CHECKS } from './document/all.ts';
import { DRIVE_CHECKS } from './drive/all.ts';
import { HANDLING_CHECKS } from './handling/lifting.ts';
import { INTAKE_TRIP_CHECKS } from './intake-trip/all.ts';
import { MOTOR_SUPPLY_CHECKS } from './motor/supplied.ts';
import { POLICY_CHECKS } from './policy/texts.ts';
import { PROTECTION_CHECKS } from './protection/all.ts';
import { READINGS_CHECKS } from './readings/all.ts';
import { REFERENCE_CHECKS } from './reference/all.ts';
import { RESTART_CHECKS } from './restart/all.ts';
import { SAFETY_CHECKS } from './safety/notes.ts';
import { SUBJECT_CHECKS } from './subjects.ts';
import { TAP_CHECKS } from './tap/all.ts';
import { TRANSFORMER_CHECKS } from './transformer/all.ts';
import { UNIT_CHECKS } from './units/all.ts';

/** Checks that are bounds: their texts stand with the bound, and the windows run them. */
function boundChecks(): readonly Check[] {
  const texts = new Map<string, CheckTexts>();
  for (const { bounds, emptiness, diagnosis } of WINDOWS) {
    for (const { check } of bounds) texts.set(check.id, check);
    texts.set(emptiness.id, emptiness);
    if (diagnosis !== undefined) texts.set(diagnosis.check.id, diagnosis.check);
  }
  return [...texts.values()].map((text) => ({
    ...text,
    concerns: ['installation'],
    parts: [],
    foundBy: 'window',
  }));
}

/** Every check that Setproof knows, by id. */
export const CATALOGUE: readonly Check[] = [
  ...DOCUMENT_CHECKS,
  ...SUBJECT_CHECKS,
  ...UNIT_CHECKS,
  ...TRANSFORMER_CHECKS,
  ...TAP_CHECKS,
  ...REFERENCE_CHECKS,
  ...MOTOR_SUPPLY_CHECKS,
  ...INTAKE_TRIP_CHECKS,
  ...DRIVE_CHECKS,
  ...PROTECTION_CHECKS,
  ...RESTART_CHECKS,
  ...HANDLING_CHECKS,
  ...SAFETY_CHECKS,
  ...ACROSS_CHECKS,
  ...DEVIATION_CHECKS,
  ...POLICY_CHECKS,
  ...READINGS_CHECKS,
  ...boundChecks(),
].sort((a, b) => (a.id < b.id ? -1 : 1));
