import { WITH_DRIVE } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { differs } from '../difference.ts';

const INPUT_VOLTAGE = 'equipment.drive.input_voltage';
const INPUT_FREQUENCY = 'equipment.drive.input_frequency';

export const INPUT_MISMATCH: Check = check({
  id: 'drive.input-mismatch',
  severity: 'error',
  title: 'drive that is not made for the supply',
  compares: 'the rated input voltage of the drive with the voltage of the supply',
  why: 'Too much voltage destroys the rectifier; too little trips the drive or leaves the motor short.',
  mend: 'Take a drive for that supply, or a transformer before it; or correct the supply voltage.',
  source: 'IEC 60034-1 and common practice: 10 % (from memory)',
  example: { lift: 'linear', fails: { [INPUT_VOLTAGE]: '480 V' }, at: INPUT_VOLTAGE },
  when: [WITH_DRIVE],
  needs: { input: entry(INPUT_VOLTAGE), supply: entry('supply.voltage'), most: limit('drive.input-mismatch') },
  run: ({ input, supply, most }, context) =>
    differs(context, {
      key: INPUT_VOLTAGE,
      value: { number: input, kind: 'voltage' },
      due: { number: supply, kind: 'voltage' },
      most,
      says: (own, other, apart) =>
        `The drive is made for an input of ${own} and the supply has ${other}, ${apart} apart. ${INPUT_MISMATCH.mend}`,
      related: [{ key: 'supply.voltage', message: 'the supply' }],
    }),
});

export const SUPPLY_FREQUENCY: Check = check({
  id: 'drive.supply-frequency',
  severity: 'warning',
  title: 'drive that is made for another supply frequency',
  compares: 'the rated input frequency of the drive with the frequency of the supply',
  why: 'Fans, transformers and filters in the drive are made for one frequency; often the sheet is that of another drive.',
  mend: 'Ask for the drive’s sheet at this frequency, or correct the supply.',
  source: 'IEC 60034-1 zone B, 5 % (from memory)',
  example: { lift: 'linear', fails: { [INPUT_FREQUENCY]: '60 Hz' }, at: INPUT_FREQUENCY },
  when: [WITH_DRIVE],
  needs: { input: entry(INPUT_FREQUENCY), supply: entry('supply.frequency'), most: limit('drive.supply-frequency') },
  run: ({ input, supply, most }, context) =>
    differs(context, {
      key: INPUT_FREQUENCY,
      value: { number: input, kind: 'frequency' },
      due: { number: supply, kind: 'frequency' },
      most,
      says: (own, other) =>
        `The drive is made for a supply of ${own}, and the supply has ${other}. ${SUPPLY_FREQUENCY.mend}`,
      related: [{ key: 'supply.frequency', message: 'the supply' }],
    }),
});
