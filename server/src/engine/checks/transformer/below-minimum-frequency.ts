import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const LEAST = 'equipment.transformer.frequency_min';

export const BELOW_MINIMUM_FREQUENCY: Check = check({
  id: 'transformer.below-minimum-frequency',
  severity: 'warning',
  title: 'transformer run below its least frequency',
  compares: 'the frequency of each case with the least on the transformer’s data sheet',
  why: 'The maker vouches for core and cooling down to that frequency only.',
  mend: 'Run faster, or take a transformer that is made for it.',
  source: 'the transformer’s data sheet',
  example: { lift: 'linear', fails: { [LEAST]: '2.5 Hz' }, at: LEAST },
  when: [WITH_TRANSFORMER],
  needs: { frequency: value('motor.frequency'), least: entry(LEAST) },
  run: ({ frequency, least }, context) => {
    if (frequency >= least) return { margin: { number: frequency - least, kind: 'frequency' } };
    const show = (number: number) => context.show(number, 'frequency', LEAST);
    return {
      key: LEAST,
      message: `The case '${context.caseName}' runs at ${show(frequency)}, below the ${show(least)} down to which the transformer is made. Run faster, or take another transformer.`,
      value: { number: frequency, kind: 'frequency' },
      limit: { number: least, kind: 'frequency' },
    };
  },
});
