import { LINEAR, present, switchedOn } from '../../values/conditions.ts';
import { entry, text } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const STALL = 'setpoints.protection.stall';
const BASIS = `${STALL}.basis`;

export const STALL_ON_THE_AVERAGE: Check = check({
  id: 'stall.on-the-average',
  severity: 'warning',
  title: 'stall trip on the average of the cycle',
  compares: 'the basis of the stall trip, where one is entered, and its delay with the time of a stroke',
  why:
    'An average over the cycle still holds the return stroke when the plunger sticks, so it comes up to the current of ' +
    'the standing motor only a whole stroke later: the trip acts later than its delay says.',
  mend: "Let the stall trip act on the peak of the stroke: 'basis: stroke_peak'.",
  source: 'arithmetic of a moving average',
  example: {
    lift: 'linear',
    fails: { [STALL]: '{ trip: 18 A, delay: 3 s, basis: cycle_rms }' },
    passes: { [STALL]: '{ trip: 18 A, delay: 3 s, basis: stroke_peak }' },
    at: BASIS,
  },
  when: [LINEAR, ...switchedOn('stall'), present(BASIS)],
  needs: { basis: text(BASIS), delay: entry(`${STALL}.delay`), rate: entry('operation.stroke.rate', 'stroke_rate') },
  run: ({ basis, delay, rate }, context) => {
    const cycle = 1 / rate;
    if (basis !== 'cycle_rms' || delay >= cycle) return undefined;
    const show = (time: number) => context.show(time, 'duration', `${STALL}.delay`);
    return {
      key: BASIS,
      message: `The stall trip goes by the average of the cycle, which lasts ${show(cycle)} in the case '${context.caseName}': a plunger that sticks is seen that much later than the delay of ${show(delay)} says. Let it act on the peak of the stroke.`,
      value: { number: delay, kind: 'duration' },
      limit: { number: cycle, kind: 'duration' },
      related: [{ key: `${STALL}.delay`, message: 'the delay of the stall trip' }],
      fixes: [
        {
          title: 'Let the stall trip act on the peak of the stroke',
          kind: 'offer',
          key: BASIS,
          newText: 'stroke_peak',
        },
      ],
    };
  },
});
