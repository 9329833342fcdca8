import { present } from '../../values/conditions.ts';
import { entry, isPresent, limit } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const APPLIES = 'setpoints.start.applies';
const OVERRIDE = 'setpoints.start.override';

export const START_OVERRIDE_UNLIMITED: Check = check({
  id: 'start.override-unlimited',
  severity: 'error',
  title: 'override at the start without an end',
  compares: 'whether the override that is said to apply has a duration',
  why: 'Underload and intake pressure stay held off for ever, and the pump runs dry with nothing to stop it.',
  mend: 'Enter how long the trips are held off: the time to fill the tubing and half of it again.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [OVERRIDE]: null }, at: OVERRIDE },
  when: [present(APPLIES)],
  needs: { isLimited: isPresent(OVERRIDE) },
  run: ({ isLimited }, context) => {
    if (isLimited) return undefined;
    const starts = context.text(APPLIES) === 'every' ? 'every start' : 'the first start';
    const message = `Underload and intake-pressure trip are held off at ${starts}, and nothing says for how long. Enter 'override'.`;
    return { key: OVERRIDE, message };
  },
});

export const START_OVERRIDE_AT_EVERY_START: Check = check({
  id: 'start.override-at-every-start',
  severity: 'warning',
  title: 'long override at every start',
  compares: 'the override at every start with an hour, where the unit restarts by itself',
  why:
    'Only the first start fills the tubing; later a check valve keeps it full, or little is to be made up. A well that is ' +
    'pumped off restarts without underload and intake-pressure trip, and runs dry for as long as they are held off.',
  mend: "Let the long override apply to the first start: 'applies: first'.",
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [APPLIES]: 'every' }, at: APPLIES },
  when: [present(APPLIES), { path: 'setpoints.restart.mode', is: ['automatic'] }],
  needs: { override: entry(OVERRIDE), most: limit('start.override-at-every-start') },
  run: ({ override, most }, context) => {
    if (context.text(APPLIES) !== 'every') return undefined;
    if (override <= most) return { margin: { number: most - override, kind: 'duration' } };
    return {
      key: APPLIES,
      message: `Underload and intake-pressure trip are held off for ${context.text(OVERRIDE)} at every start, and the unit restarts by itself: a well that is pumped off runs dry that long each time. ${START_OVERRIDE_AT_EVERY_START.mend}`,
      value: { number: override, kind: 'duration' },
      limit: { number: most, kind: 'duration' },
      fixes: [{ title: 'Hold the trips off at the first start only', kind: 'offer', key: APPLIES, newText: 'first' }],
    };
  },
});
