import { LINEAR, present } from '../../values/conditions.ts';
import { entry, limit, optionalEntry, value } from '../../values/declare.ts';
import { DWELL } from '../../values/pump/plunger.ts';
import { AT_OWN_PACE } from '../case-keys.ts';
import { type Check, checkOfParts, part } from '../declare.ts';
import { differs } from '../difference.ts';
import { atMost } from '../within.ts';

const STROKE = 'operation.stroke';
const SPEED = `${STROKE}.speed`;
const SHARE = `${STROKE}.up_fraction`;
const PAUSE = `${STROKE}.dwell`;
const RATE = `${STROKE}.rate`;

export const PUMP_CYCLE_INCONSISTENT: Check = checkOfParts(
  {
    id: 'pump.cycle-inconsistent',
    severity: 'error',
    title: 'the cycle of the plunger contradicts itself',
    compares:
      'the entered plunger speed with that of stroke rate, length, share of the loaded stroke and dwell, to 2 %; ' +
      'loaded ' +
      'stroke and dwell with the length of the cycle',
    why: 'The controller can obey only some of them, and nobody knows which. Rate, load and frequency rest on all.',
    mend: 'Correct the wrong one, or take out the speed, which follows from the others.',
    source: 'kinematics of a reciprocating pump; the limit is common practice, no source',
    example: { lift: 'linear', fails: { [SPEED]: '0.3 m/s' }, passes: { [SPEED]: '0.248 m/s' }, at: SPEED },
  },
  [
    part({
      when: [LINEAR, present(SPEED), ...AT_OWN_PACE],
      needs: { speed: entry(SPEED), computed: value('pump.loaded_speed'), most: limit('pump.cycle-inconsistent') },
      run: ({ speed, computed, most }, context) =>
        differs(context, {
          key: SPEED,
          value: { number: speed, kind: 'speed' },
          due: { number: computed, kind: 'speed' },
          most,
          says: (own, other, apart) =>
            `The plunger speed is entered as ${own}; stroke rate and length give ${other} in the loaded stroke, ${apart} apart. Correct the wrong one, or take the speed out.`,
          related: [RATE, `${STROKE}.length`, SHARE, PAUSE].map((key) => ({ key, message: 'counts in' })),
          offer: (due) => ({
            title: `Write ${due}, the speed of that rate and length`,
            kind: 'offer',
            key: SPEED,
            newText: due,
          }),
        }),
    }),
    part({
      when: [LINEAR, present(PAUSE)],
      needs: { share: optionalEntry(SHARE), dwell: DWELL, rate: entry(RATE) },
      run: ({ share = 0, dwell, rate }, context) =>
        !(rate > 0)
          ? undefined
          : atMost(context, {
              key: PAUSE,
              kind: 'duration',
              number: share / rate + dwell,
              limit: 1 / rate,
              says: (own, cycle) =>
                `Loaded stroke and dwell take ${own} together, and the whole cycle has ${cycle}: no time is left for the return stroke. Look at dwell and stroke rate with their units.`,
              related: [{ key: RATE, message: 'the stroke rate' }],
            }),
    }),
  ],
);
