import type { Severity } from '../findings/finding.ts';
import type { CheckContext } from './context.ts';
import type { Amount, Judgement, Offer, Verdict } from './declare.ts';
import { apartInWords } from './share.ts';

/** Two numbers that should agree. */
export interface Pair {
  /** Dotted key of the one that is judged. */
  readonly key: string;
  readonly value: Amount;
  /** What it should be. */
  readonly due: Amount;
  /** Share of what is due by which they may differ. */
  readonly most: number;
  readonly severity?: Severity;
  /** The finding; both numbers and their difference as a share are given in words. */
  readonly says: (own: string, other: string, apart: string) => string;
  readonly related?: Judgement['related'];
  /** The offer to write what is due, from its text. */
  readonly offer?: (due: string) => Offer | undefined;
}

/** Judges two numbers that should agree. Margin: how much further they may part, as a share. */
export function differs(
  context: CheckContext,
  { key, value, due, most, says, severity, related = [], offer }: Pair,
): Verdict {
  const apart = Math.abs(value.number / due.number - 1);
  if (apart <= most) return { margin: { number: most - apart, kind: 'ratio' } };
  const show = ({ number, kind }: Amount) => context.show(number, kind, key);
  return {
    key,
    message: says(show(value), show(due), apartInWords(context, apart)),
    value,
    limit: due,
    related,
    fixes: [offer?.(show(due))].flatMap((each) => each ?? []),
    ...(severity === undefined ? {} : { severity }),
  };
}
