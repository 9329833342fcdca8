import { temperatureFactor } from '../values/electrical/conductor.ts';
import { kindOfUnit, type ReadNumber } from './reading-number.ts';
import type { Step, StepLimit } from './step.ts';

// A reading that went through a conversion of units, which rounds in the last bits, still meets its limit.
const SLACK = 1e-9;

export function isBelow(number: number, least: number): boolean {
  return number < least - SLACK * Math.abs(least);
}

export function isAbove(number: number, most: number): boolean {
  return number > most + SLACK * Math.abs(most);
}

export function isSame(number: number, planned: number): boolean {
  return !isBelow(number, planned) && !isAbove(number, planned);
}

/** A number in the unit of its step; an instrument at the end of its range shows `> 2 Gohm`, an open end. */
export type NumberRead = Pick<Extract<ReadNumber, { readonly number: number }>, 'number' | 'beyond'>;

/** The end of a limit that a reading breaks. */
export interface Broken {
  readonly end: keyof StepLimit;
  readonly limit: number;
  /** False for an open end that may lie on either side. */
  readonly isSure: boolean;
}

/** @returns undefined for a reading that lies within, and without a limit in numbers */
export function brokenLimit(limit: StepLimit | undefined, reading: NumberRead): Broken | undefined {
  return brokenEnd('min', limit?.min, reading) ?? brokenEnd('max', limit?.max, reading);
}

function brokenEnd(
  end: keyof StepLimit,
  limit: number | string | undefined,
  { number, beyond }: NumberRead,
): Broken | undefined {
  if (typeof limit !== 'number') return undefined;
  const inwards = end === 'min' ? 'above' : 'below';
  const isOutside = end === 'min' ? isBelow(number, limit) : isAbove(number, limit);
  if (isOutside) return { end, limit, isSure: beyond !== inwards };
  return beyond === undefined || beyond === inwards ? undefined : { end, limit, isSure: false };
}

/** Of several broken limits one that is surely broken, else the first. */
export function gravest<T extends Broken>(broken: readonly T[]): T | undefined {
  return broken.find(({ isSure }) => isSure) ?? broken[0];
}

export function isInsulation({ id, unit = '' }: Step): boolean {
  return /insulation/.test(id) && kindOfUnit(unit)?.name === 'resistance';
}

/** Resistances of windings and conductors between the phases. */
export function isPhaseResistance({ unbalanceMax, unit = '' }: Step): boolean {
  return unbalanceMax !== undefined && kindOfUnit(unit)?.name === 'resistance';
}

/**
 * What is compared with the limit of a step: each of its readings; but resistances between phases as they are at 20 degC,
 * where their temperature, degC, was read, and beside a computed value their mean, since that they differ among each
 * other is another mistake. Source: copper 0.00393 /K at 20 degC (IEC 60028).
 */
export function compared<T extends NumberRead>(
  step: Step,
  readings: readonly T[],
  temperature: number | undefined,
): readonly T[] {
  if (!isPhaseResistance(step)) return readings;
  const factor = temperature === undefined ? 1 : temperatureFactor(temperature);
  const brought = readings.map((each) => ({ ...each, number: each.number / factor }));
  const [first] = brought;
  if (step.expected === undefined || first === undefined) return brought;
  const mean = brought.reduce((sum, { number }) => sum + number, 0) / brought.length;
  const open = brought.find(({ beyond }) => beyond !== undefined);
  return [{ ...first, number: mean, beyond: open?.beyond }];
}
