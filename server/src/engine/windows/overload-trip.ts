import type { CheckTexts } from '../findings/texts.ts';
import { notSwitchedOff, WITH_DRIVE } from '../values/conditions.ts';
import { entry, knownCases, limit, value } from '../values/declare.ts';
import { bound, boundAt, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readable, within } from './rounding.ts';
import { namedWithSide } from './sides.ts';

const TRIP = 'setpoints.protection.overload.trip';
const RATED_SHARE = limit('overload.above-motor');
const RATIO = value('overload.side_ratio');

const aboveMotor: CheckTexts = {
  id: 'overload.above-motor',
  severity: 'error',
  title: 'overload trip above what the motor stands',
  compares: 'the overload trip, brought to the motor side, with 115 % of the motor’s rated current',
  why: 'The winding overheats before the trip acts: its heat goes with the square of the current.',
  mend: 'Lower the trip to 115 % of the rated motor current or less.',
  source: 'common practice; NFPA 70 430.32 allows 115 % for motors in general (from memory)',
  example: { lift: 'linear', fails: { [TRIP]: '25 A' }, at: TRIP },
};
const belowRunning: CheckTexts = {
  id: 'overload.below-running',
  severity: 'error',
  title: 'overload trip not above the running current',
  compares: 'the overload trip with the current of every case, over the cycle or at the peak as the trip measures it',
  why: 'The unit trips in a case that it is meant to run in.',
  mend: 'Raise the trip above the highest running current, or lighten that case.',
  source: 'current of the motor at the load of the case',
  example: { lift: 'linear', fails: { [TRIP]: '5 A' }, at: TRIP },
};
const nearRunning: CheckTexts = {
  id: 'overload.near-running',
  severity: 'warning',
  title: 'overload trip close above the running current',
  compares: 'the overload trip with 105 % of the current of every case',
  why: 'A little more density, friction or sag of the supply trips a healthy unit.',
  mend: 'Raise the trip towards 115 % of the highest running current.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TRIP]: '9.5 A' }, at: TRIP },
};
const aboveDrive: CheckTexts = {
  id: 'overload.above-drive',
  severity: 'error',
  title: 'overload trip above what the drive can push',
  compares: 'the overload trip with the drive’s rated current times its overload, on the same side of the transformer',
  why: 'The drive limits the current before the trip sees it: the trip never acts.',
  mend: 'Lower the trip below the limit of the drive.',
  source: 'the drive’s data sheet; current ratio of a transformer, any machines text',
  example: { lift: 'linear', fails: { [TRIP]: '2000 A' }, at: TRIP },
};

export const OVERLOAD_TRIP: Window = {
  setpoint: TRIP,
  title: 'the overload trip',
  kind: 'current',
  compared: entry(TRIP),
  when: notSwitchedOff('overload'),
  emptiness: WINDOW_EMPTY,
  named: namedWithSide('overload', 'overload', 'motor'),
  bounds: [
    boundAt('overload.running_current', {
      check: belowRunning,
      side: 'lower',
      hard: true,
      excludesItself: true,
      kind: 'current',
      limitName: 'the running current',
      consequence: 'the unit would trip in a case that it is meant to run in',
    }),
    bound({
      check: nearRunning,
      side: 'lower',
      hard: false,
      kind: 'current',
      limitName: 'the running current with a margin',
      consequence: 'a little more load would trip a healthy unit',
      formula: 'running current × 1.05',
      inputs: { running: value('overload.running_current'), share: limit('overload.near-running') },
      compute: ({ running, share }) => running * share,
    }),
    bound({
      check: aboveMotor,
      side: 'upper',
      hard: true,
      kind: 'current',
      limitName: 'the most that the motor stands',
      consequence: 'the winding would overheat before it acts',
      formula: 'I_r × 1.15',
      inputs: { rated: entry('equipment.motor.current'), share: RATED_SHARE, ratio: RATIO },
      compute: ({ rated, share, ratio }) => rated * share * ratio,
    }),
    bound({
      check: aboveDrive,
      side: 'upper',
      hard: true,
      kind: 'current',
      when: [WITH_DRIVE],
      limitName: 'the most that the drive can push',
      consequence: 'the drive would limit the current before it acts',
      formula: 'I_drive × overload ratio × V_1/V_t',
      inputs: { most: value('drive.current_limit_at_motor'), ratio: RATIO },
      compute: ({ most, ratio }) => most * ratio,
    }),
  ],
  recommendation: recommend({
    rule: '115 % of the highest running current, within the window',
    inputs: { running: knownCases('overload.running_current'), share: RATED_SHARE },
    choose: ({ running, share }, { hardLower, hardUpper, lower }) => {
      const highest = Math.max(...running.filter(Number.isFinite));
      const low = Math.min(Math.max(hardLower, lower), hardUpper);
      return readable(within(share * highest, low, hardUpper), low, hardUpper);
    },
  }),
};
