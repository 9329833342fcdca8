import type { CheckTexts } from '../findings/texts.ts';
import { LINEAR, NO_WORDS, present, ROTARY } from '../values/conditions.ts';
import { entry, limit, text } from '../values/declare.ts';
import { bound, boundAt, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { longer } from './rounding.ts';

const DELAY = 'setpoints.restart.delay';
const TRIP = 'setpoints.protection.intake_pressure_low';

const short: CheckTexts = {
  id: 'restart.delay-short',
  severity: 'warning',
  title: 'restart delay short',
  compares: 'the restart delay with 30 min for a rotary pump without a check valve, with 5 min otherwise',
  why:
    'Without a check valve the column falls back through the pump and spins it backwards; a start into that can break ' +
    'the shaft. Otherwise the motor wants a few minutes to cool.',
  mend: 'Lengthen the delay, or say that there is a check valve.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [DELAY]: '1 min' }, at: DELAY },
};
const beforeRefill: CheckTexts = {
  id: 'restart.before-refill',
  severity: 'warning',
  title: 'restart before the annulus has refilled',
  compares: 'the restart delay with the time in which the inflow lifts the intake pressure from trip to reset',
  why: 'The unit finds the well still pumped off: it waits on, or uses up its restarts.',
  mend: 'Lengthen the delay, or lower the reset.',
  source: 'inflow of the well: straight line, Vogel 1968',
  example: { lift: 'linear', fails: { [DELAY]: '6 min' }, at: DELAY },
};

const SHORT = {
  check: short,
  side: 'lower',
  hard: false,
  kind: 'duration',
  consequence: 'the unit might start into a falling column, or hot',
} as const;

export const RESTART_DELAY: Window = {
  setpoint: DELAY,
  title: 'the restart delay',
  kind: 'duration',
  compared: entry(DELAY),
  when: [{ path: 'setpoints.restart.mode', is: ['automatic'] }],
  emptiness: WINDOW_EMPTY,
  bounds: [
    bound({
      ...SHORT,
      id: 'restart.delay-short.rotary',
      when: [ROTARY],
      limitName: 'the time in which the column has fallen back',
      formula: '30 min without a check valve, else 5 min',
      inputs: {
        checkValve: text('well.tubing.check_valve'),
        without: limit('restart.delay-short'),
        otherwise: limit('restart.delay-short.otherwise'),
      },
      compute: ({ checkValve, without, otherwise }) => (NO_WORDS.includes(checkValve) ? without : otherwise),
    }),
    bound({
      ...SHORT,
      id: 'restart.delay-short.linear',
      when: [LINEAR],
      limitName: 'the shortest usual delay',
      formula: '5 min',
      inputs: { otherwise: limit('restart.delay-short.otherwise') },
      compute: ({ otherwise }) => otherwise,
    }),
    boundAt('restart.refill_time', {
      check: beforeRefill,
      side: 'lower',
      hard: false,
      kind: 'duration',
      when: [present(TRIP)],
      limitName: 'the time in which the annulus refills to the reset pressure',
      consequence: 'the well would still be pumped off',
    }),
  ],
  recommendation: recommend({
    rule: 'the greatest of these times, rounded up',
    inputs: {},
    choose: (_, { lower }) => (Number.isFinite(lower) ? longer(lower) : Number.NaN),
  }),
};
