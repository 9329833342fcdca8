import type { CheckTexts } from '../findings/texts.ts';
import { LINEAR, present, ROTARY } from '../values/conditions.ts';
import { entry, limit, value } from '../values/declare.ts';
import { type Bound, bound, boundAt, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { longer } from './rounding.ts';

const OVERRIDE = 'setpoints.start.override';
/** Recommended over the time to fill the tubing (handbook; common practice, no source). */
const ROOM = 1.5;

const shorterThanFill: CheckTexts = {
  id: 'start.override-shorter-than-fill',
  severity: 'warning',
  title: 'start override shorter than the time to fill the tubing',
  compares: 'the time for which underload and intake-pressure trip are held off with the time to fill the tubing',
  why: 'Until the tubing is full the motor is lightly loaded: the underload trip stops a start that goes as it should.',
  mend: 'Lengthen the override to the time to fill the tubing and half of it again.',
  source: 'volume balance',
  example: { lift: 'linear', fails: { [OVERRIDE]: '5 min' }, at: OVERRIDE },
};
const tooLong: CheckTexts = {
  id: 'start.override-too-long',
  severity: 'warning',
  title: 'start override long',
  compares: 'the time for which trips are held off with 24 h for a linear pump, 4 h for a rotary one',
  why: 'All that time nothing stops a pump that runs dry.',
  mend: 'Shorten the override; if the tubing needs so long to fill, look at the rate of the first case.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [OVERRIDE]: '7 d' }, at: OVERRIDE },
};

function longest(lift: 'linear' | 'rotary'): Bound {
  return bound({
    check: tooLong,
    id: `start.override-too-long.${lift}`,
    side: 'upper',
    hard: false,
    kind: 'duration',
    when: [lift === 'linear' ? LINEAR : ROTARY],
    limitName: 'the longest usual override',
    consequence: 'nothing would stop a pump that runs dry for all that time',
    formula: 'limit',
    inputs: { most: limit(`start.override-too-long.${lift}`) },
    compute: ({ most }) => most,
  });
}

export const START_OVERRIDE: Window = {
  setpoint: OVERRIDE,
  title: 'the start override',
  kind: 'duration',
  compared: entry(OVERRIDE),
  when: [present(OVERRIDE)],
  emptiness: WINDOW_EMPTY,
  bounds: [
    boundAt('start.fill_time', {
      check: shorterThanFill,
      side: 'lower',
      hard: false,
      kind: 'duration',
      limitName: 'the time to fill the tubing',
      consequence: 'a start that goes as it should would be stopped',
    }),
    longest('linear'),
    longest('rotary'),
  ],
  recommendation: recommend({
    rule: 'one and a half times the time to fill the tubing, rounded up',
    inputs: { fill: value('start.fill_time') },
    choose: ({ fill }, { upper }) => Math.max(longer(fill), Math.min(longer(ROOM * fill), upper)),
  }),
};
