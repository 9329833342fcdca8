import { it } from 'vitest';
import { knownWells } from '../support/known-wells.ts';
import { limitsText, numbersOf } from '../support/numbers.ts';
import { BaseWell } from '../support/variations.ts';
import { compare, instancesIn, outcomeOf } from './instances.ts';

// What tests/repositories/numbers.test.ts compares: the limits, each value of the known wells, and these as wholes.

it('the limits', () => compare('the limits', limitsText()));
const files = () => [...knownWells().map(({ file }) => file()), ...(['linear', 'rotary'] as const).map(base)];
const instances = instancesIn(() => files().flatMap(({ worked }) => worked?.evaluation.installation ?? []));
for (const [key, instance] of instances) it(`${instance.id} of ${key}`, () => compare(key, outcomeOf(instance)));
for (const { name, file } of knownWells()) it(name, () => compare(name, numbersOf(file())));

function base(lift: 'linear' | 'rotary') {
  return new BaseWell(lift).asItIs();
}
