import type { CheckContext } from './context.ts';
import type { Amount, Judgement, Verdict } from './declare.ts';
import { timesOf } from './share.ts';

/** Something that is loaded against a rating, in numbers and words. */
export interface Loaded {
  /** Dotted key of the rating. */
  readonly key: string;
  /** "The drive must give". */
  readonly does: string;
  readonly demand: Amount;
  readonly rating: Amount;
  /** "that heat and altitude leave it". */
  readonly ratingIs: string;
  readonly mend: string;
}

/** A load above its rating, or a share of it. Margin: what is left of the rating, as a share. */
export function overloaded(context: CheckContext, loaded: Loaded, most: number): Verdict {
  const loading = loaded.demand.number / loaded.rating.number;
  return loading > most ? judge(context, loaded, most) : { margin: { number: most - loading, kind: 'ratio' } };
}

/** A load that leaves little of the rating; one above it is another check's. */
export function nearRating(context: CheckContext, loaded: Loaded, comfortable: number, most: number): Verdict {
  const loading = loaded.demand.number / loaded.rating.number;
  if (loading > most) return undefined;
  return overloaded(context, loaded, comfortable);
}

function judge(context: CheckContext, loaded: Loaded, most: number): Judgement {
  const { key, does, demand, rating, ratingIs, mend } = loaded;
  const show = ({ number, kind }: Amount) => context.show(number, kind, key);
  const share = timesOf(context, demand.number / rating.number);
  const limit = { ...rating, number: rating.number * most };
  const allowed = most === 1 ? '' : `; ${context.show(most, 'ratio')} is the limit`;
  return {
    key,
    message: `${does} ${show(demand)} in the case '${context.caseName}', ${share} the ${show(rating)} ${ratingIs}${allowed}. ${mend}`,
    value: demand,
    limit,
  };
}
