import type { NumberRead } from '../checklist/reading-limits.ts';
import { readNumber, temperatureIn } from '../checklist/reading-number.ts';
import type { Step } from '../checklist/step.ts';
import { formatNumber } from '../quantity/format.ts';
import type { Entry, Row, Visit } from './visit.ts';

/** An answer that is a number, in the unit of its step. */
export interface Reading extends NumberRead {
  readonly entry: Entry;
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

/** Temperature of the item at which a step was read, degC; undefined where it does not matter, and where it was not read. */
export function temperatureOf(visit: Visit, { step: { temperatureStep } }: MeasuredStep): number | undefined {
  if (temperatureStep === undefined) return undefined;
  const text = visit.row(temperatureStep)?.entries[0]?.text ?? '';
  return temperatureIn(text, visit.steps.get(temperatureStep)?.step.unit);
}

/** What to do about the end of an instrument's range that lies on either side of a limit. */
export const OPEN_END = 'It may lie on either side of that: read again in another range of the instrument.';

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
