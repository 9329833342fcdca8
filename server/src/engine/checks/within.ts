import type { Severity } from '../findings/finding.ts';
import { type CheckContext, differenceKind } from './context.ts';
import type { Judgement, Offer, Verdict } from './declare.ts';
import { reaches } from './reaches.ts';

/** A number against a limit that it may reach. */
export interface Limited {
  /** Dotted key at which it is said. */
  readonly key: string;
  /** Kind of both numbers. */
  readonly kind: string;
  readonly number: number;
  readonly limit: number;
  readonly severity?: Severity;
  /** The finding in full sentences, with the two numbers and their distance in words. */
  readonly says: (own: string, limit: string, apart: string) => string;
  readonly related?: Judgement['related'];
  readonly fixes?: readonly Offer[];
  /** Checks of which one reports the cause, if it does. */
  readonly follows?: readonly string[];
}

/** Judges a number that may not pass its limit. Margin: the distance to it. */
export function atMost(context: CheckContext, limited: Limited): Verdict {
  return judge(context, limited, reaches(limited.limit, limited.number));
}

/** Judges a number that may not fall below its limit. Margin: the distance to it. */
export function atLeast(context: CheckContext, limited: Limited): Verdict {
  return judge(context, limited, reaches(limited.number, limited.limit));
}

/** Judges a number that may lie so far from what is due, and no further. Margin: how much further it may go. */
export function near(context: CheckContext, limited: Limited, most: number): Verdict {
  const apart = Math.abs(limited.number - limited.limit);
  if (apart <= most) return { margin: { number: most - apart, kind: differenceKind(limited.kind) } };
  return beyond(context, limited);
}

function judge(context: CheckContext, limited: Limited, isInside: boolean): Verdict {
  const { kind, number, limit } = limited;
  return isInside
    ? { margin: { number: Math.abs(number - limit), kind: differenceKind(kind) } }
    : beyond(context, limited);
}

function beyond(context: CheckContext, limited: Limited): Judgement {
  const { key, kind, number, limit, says, severity, related, fixes, follows } = limited;
  return {
    key,
    message: says(
      context.show(number, kind, key),
      context.show(limit, kind, key),
      context.showDifference(Math.abs(number - limit), kind, key),
    ),
    value: { number, kind },
    limit: { number: limit, kind },
    ...(severity === undefined ? {} : { severity }),
    ...(related === undefined ? {} : { related }),
    ...(fixes === undefined ? {} : { fixes }),
    ...(follows === undefined ? {} : { follows }),
  };
}

/** The row that is furthest beyond its limit, by `excess`; undefined for an empty list. */
export function worstOf<T>(rows: readonly T[], excess: (row: T) => number): T | undefined {
  return rows.reduce<T | undefined>((a, b) => (a === undefined || excess(b) > excess(a) ? b : a), undefined);
}
