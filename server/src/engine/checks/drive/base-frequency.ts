import { present, TRIMMED, WITH_DRIVE } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { near } from '../within.ts';

const BASE = 'setpoints.drive.base_frequency';
const RATED = 'equipment.motor.frequency';
const MEND = 'Enter the rated frequency of the motor, or what drive and tap ask for.';

/** With volts per hertz the tap counts in too, and the window of the base frequency judges it. */
export const BASE_FREQUENCY_UNLIKE_MOTOR: Check = check({
  id: 'drive.base-frequency-unlike-motor',
  severity: 'warning',
  title: 'base frequency far from that of the motor',
  compares:
    'the base frequency of a drive whose voltage is trimmed with the rated frequency of the motor; they may differ by ' +
    '25 %',
  why:
    'The base frequency tells the drive where its voltage ends. Left at that of the grid or of another motor, it lets ' +
    'the core saturate, or starves the motor, as soon as the trimming is lost.',
  mend: MEND,
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [BASE]: '50 Hz' }, at: BASE },
  when: [WITH_DRIVE, TRIMMED, present(BASE)],
  needs: { base: entry(BASE), rated: entry(RATED), most: limit('drive.base-frequency-unlike-motor') },
  run: ({ base, rated, most }, context) =>
    near(
      context,
      {
        key: BASE,
        kind: 'frequency',
        number: base,
        limit: rated,
        says: (own, due, apart) =>
          `The base frequency of ${own} is ${apart} off the ${due} that the motor is rated for; ${context.show(most, 'ratio')} is allowed. ${MEND}`,
        related: [{ key: RATED, message: 'the rated frequency of the motor' }],
        // There the motor's own frequency is the wrong one.
        follows: ['motor.speed-and-frequency-disagree'],
      },
      most * rated,
    ),
});
