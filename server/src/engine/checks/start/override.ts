import { present } from '../../values/conditions.ts';
import { isPresent } from '../../values/declare.ts';
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
