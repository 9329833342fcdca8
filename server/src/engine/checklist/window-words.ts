import type { WindowReading } from '../windows/reading.ts';
import type { Facts } from './facts.ts';
import type { StepLimit } from './step.ts';

/** The window of a setpoint, if it has one here. */
export function windowOf(facts: Facts, setpoint: string): WindowReading | undefined {
  return facts.worked.windows.find(({ window, applies }) => applies && window.setpoint === setpoint);
}

/** The hard ends of a window in the unit of a key; undefined where nothing bounds it. */
export function limitOfWindow(facts: Facts, { window, ends }: WindowReading, key: string): StepLimit | undefined {
  const end = (number: number) =>
    Number.isFinite(number) ? facts.notation.ofNumber(number, window.kind, facts.quantity(key)).number : undefined;
  const [min, max] = [end(ends.hardLower), end(ends.hardUpper)];
  return min === undefined && max === undefined ? undefined : { min, max };
}

/** A window in a sentence or two: its ends, what is recommended, and what keeps it from being known whole. */
export function windowWords(facts: Facts, reading: WindowReading | undefined): string {
  if (reading === undefined) return '';
  return [range(facts, reading), windowRemarks(facts, reading)].filter((each) => each !== '').join(' ');
}

/** What is to be said of a window besides its ends. */
export function windowRemarks(facts: Facts, reading: WindowReading | undefined): string {
  if (reading === undefined) return '';
  return [recommendation(facts, reading), gaps(reading)].filter((each) => each !== '').join(' ');
}

function show(facts: Facts, { window }: WindowReading, number: number): string {
  return facts.showNumber(number, window.kind, window.setpoint);
}

function range(facts: Facts, reading: WindowReading): string {
  const { hardLower, hardUpper } = reading.ends;
  if (hardLower > hardUpper) {
    return `No value fits: at least ${show(facts, reading, hardLower)} and at most ${show(facts, reading, hardUpper)} are asked for.`;
  }
  const low = Number.isFinite(hardLower) ? show(facts, reading, hardLower) : undefined;
  const high = Number.isFinite(hardUpper) ? show(facts, reading, hardUpper) : undefined;
  if (low === undefined && high === undefined) return '';
  if (low === undefined) return `Window: at most ${high}.`;
  return high === undefined ? `Window: at least ${low}.` : `Window: ${low} to ${high}.`;
}

function recommendation(facts: Facts, reading: WindowReading): string {
  const { recommended, window } = reading;
  if (recommended === undefined || reading.setpoint === recommended) return '';
  const words = window.choice?.(facts.evaluation, recommended)?.words ?? show(facts, reading, recommended);
  return reading.setpoint === undefined ? `Recommended: ${words}.` : '';
}

function gaps({ bounds }: WindowReading): string {
  const missing = [...new Set(bounds.filter(({ bound }) => bound.hard).flatMap((each) => each.missing))];
  if (missing.length === 0) return '';
  return `Not every bound is known: ${missing
    .slice(0, 3)
    .map((each) => `'${each}'`)
    .join(', ')}${missing.length > 3 ? ' and others are' : missing.length > 1 ? ' are' : ' is'} missing.`;
}
