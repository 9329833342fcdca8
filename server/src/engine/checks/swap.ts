import { stepsOf } from '../syntax/tree.ts';
import type { CheckContext } from './context.ts';
import type { Offer } from './declare.ts';

/** The offer to exchange the texts of two entries, as a list for a judgement; empty where one of them has no text. */
export function swapOffer(context: CheckContext, one: string, other: string): readonly Offer[] {
  const textOf = (key: string) => context.evaluation.entryText(key, stepsOf(key));
  const [first, second] = [textOf(one), textOf(other)];
  if (first === undefined || second === undefined || first === second) return [];
  const title = `Exchange the two: ${second} here, ${first} there`;
  return [{ title, kind: 'offer', key: one, newText: second, also: [{ key: other, newText: first }] }];
}
