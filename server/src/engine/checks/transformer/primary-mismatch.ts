import { WITH_DRIVE, WITH_TRANSFORMER } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { differs } from '../difference.ts';

const PRIMARY = 'equipment.transformer.primary_voltage';
const OUTPUT = 'equipment.drive.output_voltage';

export const PRIMARY_MISMATCH: Check = check({
  id: 'transformer.primary-mismatch',
  severity: 'error',
  title: 'transformer that does not belong to the drive',
  compares: 'the rated primary voltage with the rated output voltage of the drive',
  why: 'The ratio of every tap is off by as much: too little voltage at the motor, or a core that saturates.',
  mend: 'Take a transformer whose primary is rated for the drive’s output, not for the mains or the overhead line.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [PRIMARY]: '460 V' }, at: PRIMARY },
  when: [WITH_TRANSFORMER, WITH_DRIVE],
  needs: { primary: entry(PRIMARY), output: entry(OUTPUT), most: limit('transformer.primary-mismatch') },
  run: ({ primary, output, most }, context) =>
    differs(context, {
      key: PRIMARY,
      value: { number: primary, kind: 'voltage' },
      due: { number: output, kind: 'voltage' },
      most,
      says: (own, other, apart) =>
        `The primary is rated ${own} and the drive gives ${other}, ${apart} apart. ${PRIMARY_MISMATCH.mend}`,
      related: [{ key: OUTPUT, message: 'the output of the drive' }],
    }),
});
