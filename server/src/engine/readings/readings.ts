import { kindOfUnit, readNumber } from '../checklist/reading-number.ts';
import type { Step } from '../checklist/step.ts';
import { formatNumber } from '../quantity/format.ts';
import { temperatureFactor } from '../values/electrical/conductor.ts';
import type { Entry, Row, Visit } from './visit.ts';

/** An answer that is a number, in the unit of its step. */
export interface Reading {
  readonly entry: Entry;
  readonly number: number;
  /** The instrument was at the end of its range: `> 2 Gohm`. */
  readonly beyond: 'above' | 'below' | undefined;
}

/** A step with a unit, the row that answers it, and the row's texts read in that unit. */
export interface MeasuredStep {
  readonly step: Step & { readonly unit: string };
  readonly row: Row;
  readonly readings: readonly Reading[];
  readonly unread: readonly { readonly entry: Entry; readonly fault: string }[];
}

/** All rows that answer a step to be read in a unit. */
export function measuredSteps(visit: Visit): readonly MeasuredStep[] {
  return visit.rows.flatMap((row) => measuredStep(row) ?? []);
}

export function measuredStep(row: Row | undefined): MeasuredStep | undefined {
  const step = row?.placed?.step;
  if (row === undefined || step?.kind !== 'read' || step.unit === undefined) return undefined;
  const unit = step.unit;
  const written = row.entries.filter(({ text }) => text !== '');
  const read = written.map((entry) => ({ entry, ...readNumber(entry.text, unit) }));
  return {
    step: { ...step, unit },
    row,
    readings: read.flatMap(({ entry, number, ...rest }) =>
      number === undefined ? [] : [{ entry, number, beyond: 'beyond' in rest ? rest.beyond : undefined }],
    ),
    unread: read.flatMap(({ entry, fault }) => (fault === undefined ? [] : [{ entry, fault }])),
  };
}

export function isInsulation({ step }: MeasuredStep): boolean {
  return /insulation/.test(step.id) && kindOfUnit(step.unit)?.name === 'resistance';
}

/** Resistances of windings and conductors between the phases. */
export function isResistance({ step }: MeasuredStep): boolean {
  return step.unbalanceMax !== undefined;
}

/** A resistance at receipt as it is at 20 degC, where the temperature of the item was read. Source: IEC 60028. */
export function at20(number: number, temperature: number | undefined): number {
  return temperature === undefined ? number : number / temperatureFactor(temperature);
}

/** Temperature of the item at its receipt, degC; undefined on the installed string, and where it was not read. */
export function temperatureAtReceipt(visit: Visit, { step }: MeasuredStep): number | undefined {
  if (!step.id.startsWith('inspection.')) return undefined;
  return temperatureAt(visit, step.id.replace(/[^.]+$/, 'temperature'));
}

/** What was read at the item of a temperature, degC. */
export function temperatureAt(visit: Visit, item: string): number | undefined {
  const text = visit.row(item)?.entries[0]?.text ?? '';
  const unit = visit.steps.get(item)?.step.unit;
  if (text === '' || unit === undefined) return undefined;
  // The text may be in the step's unit alone; the rules are for degC.
  const read = readNumber(text, unit);
  return read.number === undefined ? undefined : unit === 'degF' ? ((read.number - 32) * 5) / 9 : read.number;
}

/** A number in the unit of a step, as it is told. */
export function inUnit({ step }: MeasuredStep, number: number): string {
  return `${formatNumber(number)} ${step.unit}`;
}

/** The texts of readings as they were written. */
export function asWritten(readings: readonly Reading[]): string {
  return readings.map(({ entry }) => entry.text).join(', ');
}

/** Which of several readings it is: ` (B-C)`. */
export function fieldOf({ step }: MeasuredStep, { entry }: Reading): string {
  const name = step.fields?.[entry.index];
  return name === undefined ? '' : ` (${name})`;
}
