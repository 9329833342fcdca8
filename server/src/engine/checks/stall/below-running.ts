import { switchedOn } from '../../values/conditions.ts';
import { entry, text, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const TRIP = 'setpoints.protection.stall.trip';

export const STALL_BELOW_RUNNING: Check = check({
  id: 'stall.below-running',
  severity: 'error',
  title: 'stall trip that normal running sets off',
  compares:
    'the stall trip with the running current in every case, at the peak of a stroke or over the cycle as its basis says',
  why: 'The motor draws this current whenever it runs, so the unit would stop as if it stood still.',
  mend: 'Set the trip above the highest running current.',
  source: 'logic of limits',
  example: {
    lift: 'linear',
    fails: { 'setpoints.protection.stall.trip': '8 A' },
    at: TRIP,
  },
  when: [...switchedOn('stall'), { path: 'setpoints.protection.stall.side', isNot: ['drive'] }],
  needs: {
    trip: entry(TRIP),
    basis: text('setpoints.protection.stall.basis', 'cycle_rms'),
    peak: value('motor.current'),
    average: value('motor.current_rms'),
  },
  run: ({ trip, basis, peak, average }, context) => {
    const running = basis === 'stroke_peak' ? peak : average;
    if (trip > running) return { margin: { number: trip - running, kind: 'current' } };
    const show = (current: number) => context.show(current, 'current', TRIP);
    return {
      key: TRIP,
      message: `The stall trip of ${show(trip)} is not above the running current, ${show(running)} in the case '${context.caseName}': normal running would stop the unit. Set it above ${show(running)}.`,
      value: { number: trip, kind: 'current' },
      limit: { number: running, kind: 'current' },
    };
  },
});
