import type { CheckedFile } from '../check-document.ts';
import type { WindowReading } from '../windows/reading.ts';
import { isAbsent } from './proposals.ts';

/** A setpoint that a rule could choose, and why it did not. */
export interface OpenSetpoint {
  readonly key: string;
  /** Entries without which a bound is not known; empty where all are known and yet nothing fits. */
  readonly missing: readonly string[];
}

/** The setpoints that a file lacks and no proposal writes, so that what was left out is not left unsaid. */
export function openSetpoints(file: CheckedFile): readonly OpenSetpoint[] {
  const readings = file.worked?.windows ?? [];
  return readings
    .filter((reading) => isOpen(file, reading))
    .map(({ window, bounds }) => ({ key: window.setpoint, missing: missingOf(bounds, window.setpoint) }));
}

function isOpen(file: CheckedFile, { window, applies, recommended }: WindowReading): boolean {
  const hasRule = window.recommendation !== undefined;
  return applies && hasRule && recommended === undefined && isAbsent(file, window.setpoint);
}

function missingOf(bounds: WindowReading['bounds'], setpoint: string): readonly string[] {
  return [...new Set(bounds.flatMap(({ missing }) => missing))].filter((key) => key !== setpoint);
}
