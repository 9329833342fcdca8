import type { Step } from './step.ts';

/** What the crew entered at one step, on whatever medium. */
export interface Entry {
  /** The step's box is ticked. */
  readonly done?: boolean | undefined;
  /** As typed, one for each field of the step; empty where nothing was. */
  readonly values?: readonly string[] | undefined;
  readonly by?: string | undefined;
  readonly at?: string | undefined;
  readonly instrument?: string | undefined;
  readonly note?: string | undefined;
}

/** Entries by the ids of their steps. */
export type Entries = ReadonlyMap<string, Entry>;

/** Whether nothing more is to be entered at a step. */
export function isComplete(step: Step, entry: Entry | undefined): boolean {
  switch (step.kind) {
    case 'caution':
      return true;
    case 'do':
      return entry?.done === true;
    case 'hold':
      return isSigned(entry);
    case 'set':
      return entry?.done === true || isFilled(entry?.values?.[0]);
    case 'read':
      return hasReadings(step, entry?.values ?? []);
  }
}

/** A hold point opens when somebody signed it at some time. */
export function isSigned(entry: Entry | undefined): boolean {
  return isFilled(entry?.by) && isFilled(entry?.at);
}

/** Fields of one name, such as those of the crew, are as many as there may be; others are all wanted. */
function hasReadings({ fields = [''] }: Step, values: readonly string[]): boolean {
  const isRoomForMore = new Set(fields).size < fields.length;
  const filled = fields.filter((_, index) => isFilled(values[index])).length;
  return isRoomForMore ? filled > 0 : filled === fields.length;
}

function isFilled(text: string | undefined): boolean {
  return text !== undefined && text.trim() !== '';
}

export interface Progress {
  readonly done: number;
  readonly steps: number;
  readonly openHolds: number;
}

/** How far the crew has come; cautions are read and not counted. */
export function progressOf(steps: readonly Step[], entries: Entries): Progress {
  const counted = steps.filter(({ kind }) => kind !== 'caution');
  const open = counted.filter((step) => !isComplete(step, entries.get(step.id)));
  return {
    done: counted.length - open.length,
    steps: counted.length,
    openHolds: open.filter(({ kind }) => kind === 'hold').length,
  };
}

/** The unsigned hold point that keeps a step of the same stage shut; undefined where none does. */
export function shutBy(steps: readonly Step[], id: string, entries: Entries): Step | undefined {
  const before = steps.slice(
    0,
    steps.findIndex((step) => step.id === id),
  );
  return before.find((step) => step.kind === 'hold' && !isSigned(entries.get(step.id)));
}
