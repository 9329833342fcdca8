import { it } from 'vitest';
import { BaseWell } from '../support/variations.ts';
import { compare, instancesIn, outcomeOf } from './instances.ts';

// The variations of tests/repositories/numbers.test.ts, value by value: a set of inputs that comes again is not asked again.

const instances = instancesIn(() => [...installations('linear'), ...installations('rotary')]);
for (const [key, instance] of instances) it(`${instance.id} of ${key}`, () => compare(key, outcomeOf(instance)));

function installations(lift: 'linear' | 'rotary') {
  const well = new BaseWell(lift);
  return well.variations().map((each) => well.installation(each));
}
