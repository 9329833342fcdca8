import { WITH_DRIVE, WITH_TRANSFORMER } from '../../values/conditions.ts';
import { limit, text, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const FILTER = 'equipment.drive.output_filter';

export const NO_FILTER: Check = check({
  id: 'drive.no-filter',
  severity: 'warning',
  title: 'no sine filter before a step-up transformer and a long cable',
  compares: 'the output filter of the drive with the length of the cable behind the transformer',
  why: 'Steep pulses resonate in transformer and cable and double at the motor; its insulation ages by the hour.',
  mend: 'Fit a sine filter, and take its voltage drop into account.',
  source:
    'NEMA MG-1 parts 30 and 31 for the voltage at the motor (from memory); the length is common practice, no source',
  example: { lift: 'linear', fails: { [FILTER]: 'none' }, at: FILTER },
  when: [WITH_DRIVE, WITH_TRANSFORMER],
  needs: { filter: text(FILTER), length: value('cable.main_length'), most: limit('drive.no-filter') },
  run: ({ filter, length, most }, context) => {
    if (filter === 'sine' || length <= most) return undefined;
    return {
      key: FILTER,
      message: `The drive has no sine filter, and ${context.show(length, 'depth')} of cable hang behind the transformer. ${NO_FILTER.mend}`,
      value: { number: length, kind: 'depth' },
      limit: { number: most, kind: 'depth' },
    };
  },
});
