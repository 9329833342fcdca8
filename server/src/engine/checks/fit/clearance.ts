import { entry, limit, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atLeast } from '../within.ts';

const DRIFT = 'well.casing.drift';

export const FIT_CLEARANCE: Check = check({
  id: 'fit.clearance',
  severity: 'error',
  title: 'too little room in the casing',
  compares:
    'the drift of the casing with the largest of: the motor, the pump with the lead beside it, the tubing with ' +
    'the cable ' +
    'beside it. Flat cable and lead lie flat',
  why:
    'What does not pass the drift is stuck on the way down; with a few millimetres only, the first bend crushes ' +
    'the cable.',
  mend: 'Use slimmer equipment or a flatter cable, or measure the drift of this very casing.',
  source: 'geometry; the least clearance is common practice, no source',
  example: { lift: 'linear', fails: { 'equipment.motor.outer_diameter': '119.5 mm' }, at: DRIFT },
  needs: {
    clearance: value('fit.clearance'),
    largest: value('fit.largest_diameter'),
    least: limit('fit.clearance'),
    drift: entry(DRIFT),
  },
  run: ({ clearance, largest, least, drift }, context) => {
    const show = (length: number) => context.show(length, 'small_length', DRIFT);
    const fits =
      clearance < 0
        ? `${show(-clearance)} more than the drift of ${show(drift)}: it does not go down`
        : `which leaves ${show(clearance)} in the drift of ${show(drift)}, less than ${show(least)}`;
    return atLeast(context, {
      key: DRIFT,
      kind: 'small_length',
      number: clearance,
      limit: least,
      severity: clearance < 0 ? 'error' : 'warning',
      says: () =>
        `What goes into the casing is ${show(largest)} across at its widest, ${fits}. Use slimmer equipment or a flatter cable.`,
      related: ['equipment.motor.outer_diameter', 'equipment.pump.outer_diameter', 'well.tubing.outer_diameter'].map(
        (key) => ({ key, message: 'goes into the casing' }),
      ),
      follows: ['well.tubing-in-casing'],
    });
  },
});
