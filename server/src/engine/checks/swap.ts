import { stepsOf } from '../syntax/tree.ts';
import type { Bound } from '../windows/declare.ts';
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

/** The offer to exchange a setpoint with another one that is itself its bound: the two may have changed places. */
export function exchangeWithBound(context: CheckContext, setpoint: string, { value }: Bound): readonly Offer[] {
  const inputs = value.methods.flatMap((each) => Object.values(each.inputs));
  const source = inputs.length === 1 ? inputs[0]?.source : undefined;
  if (source?.from !== 'entry' || !source.path.startsWith('setpoints.')) return [];
  return swapOffer(context, setpoint, source.path);
}
