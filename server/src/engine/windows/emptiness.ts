import type { CheckTexts } from '../findings/texts.ts';

/** A window in which nothing fits; taps have a check of their own. */
export const WINDOW_EMPTY: CheckTexts = {
  id: 'window.empty',
  severity: 'error',
  title: 'no value of a setpoint fits',
  compares: 'the tightest bound of a setpoint from below with the tightest from above',
  why: 'Whatever is entered, something stands against it: the equipment or the plan does not suit the well.',
  mend: 'Look at the two bounds that cross, and change what one of them rests on.',
  source: 'the bounds themselves',
  example: {
    lift: 'linear',
    fails: { 'equipment.pump.min_intake_pressure': '40 bar' },
    at: 'setpoints.protection.intake_pressure_low.trip',
  },
};
