import { it } from 'vitest';
import { NETWORK } from '../../server/src/engine/checks/engine.ts';
import { Evaluation } from '../../server/src/engine/values/evaluation.ts';
import { LimitTable } from '../../server/src/engine/values/limits.ts';
import { BaseWell } from '../support/variations.ts';
import { compare, keptInstances, outcomeOf } from './instances.ts';

// The variations of tests/repositories/numbers.test.ts, value by value: a set of inputs that comes again is not asked again.

const kept = keptInstances(() => (['linear', 'rotary'] as const).flatMap(evaluations));
for (const [key, instance] of kept) it(`${instance.id} of ${key}`, () => compare(key, outcomeOf(instance)));

function evaluations(lift: 'linear' | 'rotary'): readonly Evaluation[] {
  const well = new BaseWell(lift);
  const limits = new LimitTable(new Map());
  return well.variations().map((each) => new Evaluation(well.installation(each), NETWORK, limits));
}
