import type { CheckContext } from './context.ts';

/** Beyond it a share says no more than that a digit, a unit or the other number is wrong. */
const MOST_SAID = 100;

const LEAST_SAID = 1e-4;

const isSayable = (share: number) => Number.isFinite(share) && Math.abs(share) <= MOST_SAID;

/** "120 % of", or in words where the number would be absurd: what follows is what the share is of. */
export function timesOf(context: CheckContext, share: number): string {
  if (Math.abs(share) < LEAST_SAID) return 'next to nothing of';
  return isSayable(share) ? `${context.show(share, 'ratio')} of` : 'more than a hundred times';
}

/** "12 %", or in words where the number would be absurd: "apart" follows. */
export function apartInWords(context: CheckContext, share: number): string {
  return isSayable(share) ? context.show(share, 'ratio') : 'orders of magnitude';
}
