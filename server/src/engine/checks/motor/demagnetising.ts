import { PERMANENT_MAGNET, present, WITH_DRIVE } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const MOST = 'equipment.motor.current_max';

export const MOTOR_DEMAGNETISING: Check = check({
  id: 'motor.demagnetising',
  severity: 'error',
  title: 'the drive can demagnetise the motor',
  compares: 'the most current that the drive pushes, at the motor side of the transformer, with what the magnets stand',
  why: 'One stall or one bad start weakens the magnets for good, and no reading on site shows it.',
  mend: 'Limit the current in the drive, take a smaller drive, or a higher tap.',
  source: 'any text on permanent-magnet machines; the data sheets',
  example: { lift: 'linear', fails: { [MOST]: '20 A' }, at: MOST },
  when: [PERMANENT_MAGNET, WITH_DRIVE, present(MOST)],
  needs: { current: value('drive.current_limit_at_motor'), most: entry(MOST) },
  run: ({ current, most }, context) =>
    atMost(context, {
      key: MOST,
      kind: 'current',
      number: current,
      limit: most,
      says: (own, allowed) =>
        `The drive can push ${own} at the motor side, and above ${allowed} the magnets lose their strength. Limit the current in the drive, or take a smaller one.`,
      related: [{ key: 'setpoints.transformer.tap', message: 'the tap, through which the drive pushes' }],
    }),
});
