import { optionalRows, rows } from '../declare.ts';
import { isAwgArea, standardResistance } from '../electrical/conductor.ts';

const COLUMNS = {
  length: 'number',
  conductor: 'number?',
  resistance_20: 'number?',
  inductance: 'number?',
  conductor_temperature_max: 'number?',
} as const;
const RATED_COLUMNS = { ...COLUMNS, 'ampacity.current': 'number', 'ampacity.conductor_rise': 'number' } as const;

/** The main cable's sections, top to bottom; a data sheet may stand behind each. */
export const SECTIONS = rows('equipment.cable.main', COLUMNS);
export const LEAD = rows('equipment.cable.motor_lead', COLUMNS);
export const LEAD_IF_ANY = optionalRows('equipment.cable.motor_lead', COLUMNS);

/** The same where the rise of the conductor is asked for, which takes the sheet's ampacity. */
export const RATED_SECTIONS = rows('equipment.cable.main', RATED_COLUMNS);
export const RATED_LEAD = rows('equipment.cable.motor_lead', RATED_COLUMNS);

/** A run of cable; length m, conductor area m2, resistance ohm/m at 20 degC, inductance H/m. */
export interface Section {
  readonly length: number;
  readonly conductor: number | undefined;
  readonly resistance_20: number | undefined;
  readonly inductance: number | undefined;
  /** What its insulation stands, degC. */
  readonly conductor_temperature_max: number | undefined;
}

/** A run with its ampacity: the current, A, that heats the conductor by the rise, K. */
export interface RatedSection extends Section {
  readonly 'ampacity.current': number;
  readonly 'ampacity.conductor_rise': number;
}

/** Inductance of a cable whose sheet gives none, H/m (common practice, no source). */
export const DEFAULT_INDUCTANCE = 0.35e-6;

/** Resistance per length at 20 degC, ohm/m; NaN where neither the sheet nor a standard gives one. */
export function resistance20(section: Section): number {
  const area = section.conductor ?? Number.NaN;
  return section.resistance_20 ?? standardResistance(area, isAwgArea(area));
}

/** Rise of the conductor over its surroundings at a current, K. */
export function conductorRise(section: RatedSection, current: number): number {
  return section['ampacity.conductor_rise'] * (current / section['ampacity.current']) ** 2;
}

export function totalLength(sections: readonly Section[]): number {
  return sections.reduce((sum, section) => sum + section.length, 0);
}

/** Mean of a property of the sections, weighted by their length. */
export function meanAlong<S extends Section>(sections: readonly S[], property: (section: S) => number): number {
  return sections.reduce((sum, section) => sum + section.length * property(section), 0) / totalLength(sections);
}
