import type { CheckTexts } from '../findings/texts.ts';
import { notSwitchedOff } from '../values/conditions.ts';
import { entry, knownCases, limit, value } from '../values/declare.ts';
import { type Bound, bound, boundAt, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { readable } from './rounding.ts';
import { namedWithSide } from './sides.ts';

const TRIP = 'setpoints.protection.underload.trip';
const CURRENT_LAW = 'current of the motor at the load of the pump, any machines text';
/** Most of the least running current that is recommended (common practice, no source). */
const MOST = 0.85;
/** Least current that a trip is set to, A: common practice, no source. */
const LEAST_SET = 0.1;

const aboveRunning: CheckTexts = {
  id: 'underload.above-running',
  severity: 'error',
  title: 'underload trip not below the running current',
  compares:
    'the underload trip with the least current of any case, and with that after a restart: static level, produced ' +
    'liquid and minimum frequency',
  why: 'The unit trips while it does what it should, or each time that it restarts from a full annulus.',
  mend: 'Lower the trip below the least running current.',
  source: CURRENT_LAW,
  example: { lift: 'linear', fails: { [TRIP]: '14 A', 'setpoints.protection.underload.alarm': null }, at: TRIP },
};
const nearRunning: CheckTexts = {
  id: 'underload.near-running',
  severity: 'warning',
  title: 'underload trip close below the running current',
  compares: 'the underload trip with 90 % of the least running current, that after a restart included',
  why: 'A little less density or a lighter fluid trips a healthy unit.',
  mend: 'Lower the trip towards the middle between idle and running current.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TRIP]: '5.3 A' }, at: TRIP },
};
const neverActs: CheckTexts = {
  id: 'underload.never-acts',
  severity: 'warning',
  title: 'underload trip too low to act',
  compares:
    'the underload trip with half of the least running current, and with the current of a pump that lifts nothing: a ' +
    'closed discharge at the running frequency (not the no-load current of the motor), or an empty plunger',
  why: 'A pump that is gas locked, pumped off or broken still draws more than the trip, and runs on until it fails.',
  mend: 'Raise the trip above the current of a pump that lifts nothing.',
  source: CURRENT_LAW,
  example: { lift: 'linear', fails: { [TRIP]: '0.5 A' }, at: TRIP },
};

const LIMITS = [
  { case: 'running', id: 'underload.running_current', name: 'the running current' },
  { case: 'restart', id: 'underload.restart_current', name: 'the current after a restart at static level' },
] as const;

/** For the cases and for the restart: the current itself, a margin below it, and half of it. */
function boundsBelow({ case: which, id, name }: (typeof LIMITS)[number]): readonly Bound[] {
  const inputs = { current: value(id) };
  return [
    boundAt(id, {
      check: aboveRunning,
      id: `underload.above-running.${which}`,
      side: 'upper',
      hard: true,
      excludesItself: true,
      kind: 'current',
      limitName: name,
      consequence: 'the unit would trip while it does what it should',
    }),
    bound({
      check: nearRunning,
      id: `underload.near-running.${which}`,
      side: 'upper',
      hard: false,
      kind: 'current',
      limitName: `${name} with a margin`,
      consequence: 'a little less load would trip a healthy unit',
      formula: `${id} × 0.9`,
      inputs: { ...inputs, share: limit('underload.near-running') },
      compute: ({ current, share }) => current * share,
    }),
  ];
}

export const UNDERLOAD_TRIP: Window = {
  setpoint: TRIP,
  title: 'the underload trip',
  kind: 'current',
  compared: entry(TRIP),
  when: notSwitchedOff('underload'),
  emptiness: WINDOW_EMPTY,
  named: namedWithSide('underload', 'underload', 'motor'),
  bounds: [
    ...LIMITS.flatMap(boundsBelow),
    boundAt('underload.idle_current', {
      check: neverActs,
      id: 'underload.never-acts.idle',
      side: 'lower',
      hard: false,
      kind: 'current',
      limitName: 'the current of a pump that lifts nothing',
      consequence: 'it would not act on a pump that lifts nothing',
    }),
    bound({
      check: neverActs,
      id: 'underload.never-acts.share',
      side: 'lower',
      hard: false,
      kind: 'current',
      limitName: 'half of the least running current',
      consequence: 'it would not act on a pump that has lost half of its load',
      formula: '0.5 × least running current, that after a restart included',
      inputs: {
        running: knownCases('underload.running_current'),
        restart: knownCases('underload.restart_current'),
        share: limit('underload.never-acts'),
      },
      compute: ({ running, restart, share }) => share * leastOf(running, restart),
    }),
  ],
  recommendation: recommend({
    rule: 'midway between idle and least running current, at most 85 % of the latter',
    inputs: {
      running: knownCases('underload.running_current'),
      restart: knownCases('underload.restart_current'),
      idle: knownCases('underload.idle_current'),
    },
    choose: ({ running, restart, idle }, { hardUpper }) => {
      const least = leastOf(running, restart);
      const midway = (least + Math.max(0, ...idle.filter(Number.isFinite))) / 2;
      // No relay can be set to next to nothing.
      return midway > LEAST_SET
        ? readable(Math.min(midway, MOST * least), Number.NEGATIVE_INFINITY, hardUpper)
        : Number.NaN;
    },
  }),
};

/** NaN where neither has a number. */
function leastOf(running: readonly number[], restart: readonly number[]): number {
  const known = [...running, ...restart].filter(Number.isFinite);
  return known.length === 0 ? Number.NaN : Math.min(...known);
}
