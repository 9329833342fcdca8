import { type CheckedFile, LIMITS, NETWORK } from '../../server/src/engine/index.ts';

/** Digits kept: a change of a constant by a millionth shows, the rounding of another machine does not. */
const DIGITS = 7;

/** Every value and window of a worked installation as text, a line each, for comparing them from one day to another. */
export function numbersOf({ worked }: Pick<CheckedFile, 'worked'>): string {
  if (worked === undefined) throw new Error('the installation could not be worked out');
  const { evaluation, windows } = worked;
  const values = NETWORK.nodes.map((node) => {
    const cases = node.perCase ? evaluation.caseCount : 1;
    const numbers = Array.from({ length: cases }, (_, at) => shown(evaluation.numberOf(node, at)));
    return `${node.declaration.id}  ${numbers.join('  ')}`;
  });
  const ranges = windows.map(({ window, ends, recommended }) => {
    const { hardLower, lower, upper, hardUpper } = ends;
    return `${window.setpoint}  ${[hardLower, lower, recommended, upper, hardUpper].map(shown).join('  ')}`;
  });
  return `${[...values.sort(), '', ...ranges.sort()].join('\n')}\n`;
}

/** The limits that hold without a policy. */
export function limitsText(): string {
  return `${LIMITS.map(({ name, number }) => `${name}  ${shown(number)}`)
    .sort()
    .join('\n')}\n`;
}

/** A number with the digits that are compared. */
export function shown(number: number | undefined): string {
  return number === undefined ? '-' : String(Number(number.toPrecision(DIGITS)));
}
