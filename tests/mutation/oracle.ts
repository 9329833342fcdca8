import { tableUnits } from '../../server/src/engine/quantity/symbols.ts';
import { knownWells } from '../support/known-wells.ts';
import { limitsText, numbersOf } from '../support/numbers.ts';

/** All numbers that a test compares: those of the known wells, the limits, and the units. */
export function allNumbers(): string {
  const wells = knownWells().map(({ file }) => numbersOf(file()));
  return [...wells, limitsText(), JSON.stringify([...tableUnits()])].join('\n');
}
