import { tableUnits } from '../../server/src/engine/quantity/symbols.ts';
import { knownWells } from '../support/known-wells.ts';
import { limitsText, numbersOf } from '../support/numbers.ts';
import { BaseWell, differs, telling } from '../support/variations.ts';

const LIFTS = ['linear', 'rotary'] as const;

/** All numbers that a test compares: those of the known wells, the limits, and the units. */
export function allNumbers(): string {
  const wells = knownWells().map(({ file }) => numbersOf(file()));
  return [...wells, limitsText(), JSON.stringify([...tableUnits()])].join('\n');
}

/** The same for wells that differ from a base in one entry each: a longer look. */
export function variedNumbers(): readonly (readonly [string, string])[] {
  return LIFTS.flatMap((lift) =>
    [...telling(new BaseWell(lift))].map(([name, numbers]) => [lift + name, numbers] as const),
  );
}

export function varyDifferently(usual: readonly (readonly [string, string])[]): boolean {
  return LIFTS.some((lift) => {
    const own = usual
      .filter(([name]) => name.startsWith(lift))
      .map(([name, numbers]) => [name.slice(lift.length), numbers] as const);
    return differs(new BaseWell(lift), new Map(own));
  });
}
