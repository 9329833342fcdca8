import { INDUCTION, LINEAR_MOTOR, PERMANENT_MAGNET, present, ROTARY } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import { type Check, checkOfParts, part } from '../declare.ts';
import { differs } from '../difference.ts';
import { reaches } from '../reaches.ts';

const SPEED = 'equipment.motor.speed';
const PITCH = 'equipment.motor.pole_pitch';
const FREQUENCY = 'equipment.motor.frequency';
const POLES = 'equipment.motor.poles';

const WITH_POLES = [ROTARY, present(POLES), present(SPEED)];
const ROTATION = { speed: entry(SPEED), poles: entry(POLES), frequency: entry(FREQUENCY) };
const COUNTS_IN = [FREQUENCY, POLES].map((key) => ({ key, message: 'counts in' }));
const REVOLUTIONS = 'rotational_speed';

/** Revolutions per second of the field. */
function synchronous(frequency: number, poles: number): number {
  return (2 * frequency) / poles;
}

export const MOTOR_SPEED_AND_FREQUENCY_DISAGREE: Check = checkOfParts(
  {
    id: 'motor.speed-and-frequency-disagree',
    severity: 'error',
    title: 'speed and frequency of the motor disagree',
    compares:
      'rated speed and frequency through the poles: of a linear motor twice the pole pitch times frequency to 2 ' +
      '%, of a ' +
      'permanent-magnet motor the synchronous speed to 2 %, of an induction motor a slip of 0 to 10 %',
    why: 'Every frequency is reckoned through the poles. With a pole pair’s pitch the motor runs at half the speed.',
    mend: 'Enter the pitch of one pole, not of a pair; count poles, not pairs; compare with the plate.',
    source: 'v = 2·τ·f and n = 120·f/poles, any machines text; the limits are common practice, no source',
    example: { lift: 'linear', fails: { [PITCH]: '90 mm' }, at: PITCH },
  },
  [
    part({
      when: [LINEAR_MOTOR, present(PITCH), present(SPEED)],
      needs: {
        speed: entry(SPEED),
        pitch: entry(PITCH),
        frequency: entry(FREQUENCY),
        most: limit('motor.speed-and-frequency-disagree'),
      },
      run: ({ speed, pitch, frequency, most }, context) => {
        if (!(frequency > 0)) return undefined;
        const due = speed / (2 * frequency);
        const isPair = Math.abs(pitch / due / 2 - 1) <= most;
        return differs(context, {
          key: PITCH,
          value: { number: pitch, kind: 'small_length' },
          due: { number: due, kind: 'small_length' },
          most,
          says: (own, other, apart) =>
            `The pole pitch is entered as ${own}; rated speed over twice the rated frequency is ${other}, ${apart} apart. ${isPair ? `This is the pitch of a pole pair: enter half of it, ${other}.` : 'Compare the three with the plate.'}`,
          related: [SPEED, FREQUENCY].map((key) => ({ key, message: 'counts in' })),
        });
      },
    }),
    part({
      when: [...WITH_POLES, PERMANENT_MAGNET],
      needs: { ...ROTATION, most: limit('motor.speed-and-frequency-disagree') },
      run: ({ speed, poles, frequency, most }, context) =>
        differs(context, {
          key: SPEED,
          value: { number: speed, kind: REVOLUTIONS },
          due: { number: synchronous(frequency, poles), kind: REVOLUTIONS },
          most,
          says: (own, other, apart) =>
            `The rated speed is entered as ${own}; a permanent-magnet motor of these poles and this frequency turns at ${other}, ${apart} apart. Count poles, not pairs, and compare with the plate.`,
          related: COUNTS_IN,
        }),
    }),
    part({
      when: [...WITH_POLES, INDUCTION],
      needs: { ...ROTATION, most: limit('motor.speed-and-frequency-disagree.slip') },
      run: ({ speed, poles, frequency, most }, context) => {
        const field = synchronous(frequency, poles);
        const slip = 1 - speed / field;
        if (slip > 0 && reaches(most, slip)) return { margin: { number: most - slip, kind: 'ratio' } };
        const show = (number: number) => context.show(number, REVOLUTIONS, SPEED);
        return {
          key: SPEED,
          message: `The rated speed is entered as ${show(speed)}, where the field of these poles and this frequency turns at ${show(field)}: a slip of ${context.show(slip, 'ratio')}, outside of 0 to ${context.show(most, 'ratio')}. Count poles, not pairs, and look whether speed and frequency are of one line of the data sheet.`,
          value: { number: speed, kind: REVOLUTIONS },
          limit: { number: field, kind: REVOLUTIONS },
          related: COUNTS_IN,
        };
      },
    }),
  ],
);
