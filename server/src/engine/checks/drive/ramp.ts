import { WITH_DRIVE } from '../../values/conditions.ts';
import { limit, optionalEntry } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const UP = 'setpoints.drive.ramp_up';
const DOWN = 'setpoints.drive.ramp_down';

export const RAMP: Check = check({
  id: 'drive.ramp',
  severity: 'warning',
  title: 'ramp that is unusually short or long',
  compares: 'the times for speeding up and for slowing down with what is usual',
  why: 'A short ramp is a jump that overloads drive and shaft; on a long one a motor crawls, hot, at a speed without cooling.',
  mend: 'Set a ramp of a few seconds to two minutes.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [UP]: '1 s' }, at: UP },
  when: [WITH_DRIVE],
  needs: {
    up: optionalEntry(UP),
    down: optionalEntry(DOWN),
    shortest: limit('drive.ramp'),
    longest: limit('drive.ramp.longest'),
  },
  run: ({ up, down, shortest, longest }, context) => {
    if (up === undefined && down === undefined) return { lacks: [UP, DOWN] };
    const ramps = [
      { key: UP, ramp: up },
      { key: DOWN, ramp: down },
    ];
    return ramps.flatMap(({ key, ramp }) => {
      if (ramp === undefined || (ramp >= shortest && ramp <= longest)) return [];
      const limitPassed = ramp < shortest ? shortest : longest;
      const show = (duration: number) => context.show(duration, 'duration', key);
      const way = ramp < shortest ? 'shorter' : 'longer';
      return [
        {
          key,
          message: `A ramp of ${show(ramp)} is ${way} than ${show(limitPassed)}. ${RAMP.mend}`,
          value: { number: ramp, kind: 'duration' },
          limit: { number: limitPassed, kind: 'duration' },
          fixes: [
            {
              title: `Set the ramp to ${show(limitPassed)}, the ${way === 'shorter' ? 'shortest' : 'longest'} that is usual`,
              kind: 'offer',
              key,
              newText: show(limitPassed),
            },
          ],
        },
      ];
    });
  },
});
