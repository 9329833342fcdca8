import { eachCase, limit, text, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const MOTOR = { linear: 'equipment.motor.thrust', rotary: 'equipment.motor.power' } as const;
const LOAD = { load: value('motor.load'), lift: text('lift') };
const LINEAR_LIFT = 'linear';
const PRACTICE = 'common practice, no source';

function ratingKey(lift: string): string {
  return lift === LINEAR_LIFT ? MOTOR.linear : MOTOR.rotary;
}

export const MOTOR_OVERLOAD: Check = check({
  id: 'motor.overload',
  severity: 'error',
  title: 'motor overloaded',
  compares: 'the load of each case with the rating of the motor, of a rotary one at that frequency',
  why: 'The winding overheats; its life halves with every ten kelvin too many.',
  mend: 'Take a stronger motor, a smaller pump or a lower frequency, or start on a lighter kill fluid.',
  source: 'the motor’s data sheet',
  example: { lift: 'rotary', fails: { [MOTOR.rotary]: '30 kW' }, at: MOTOR.rotary },
  needs: { ...LOAD, most: limit('motor.overload') },
  run: ({ load, lift, most }, context) =>
    atMost(context, {
      key: ratingKey(lift),
      kind: 'ratio',
      number: load,
      limit: most,
      says: (own, allowed) =>
        `In the case '${context.caseName}' the motor is loaded to ${own} of its rating; ${allowed} is the limit. Take a stronger motor, or ask less of it.`,
      // The force of a linear motor is its load; its shortage is told in newtons.
      follows: ['pump.thrust'],
    }),
});

export const MOTOR_NEAR_RATING: Check = check({
  id: 'motor.near-rating',
  severity: 'warning',
  title: 'motor close to its rating',
  compares: 'the load of each case with 95 % of the rating of the motor',
  why: 'Nothing is left for a heavier liquid, a worn pump or a voltage that is low.',
  mend: 'Take a stronger motor, or accept it as a deviation if the case is short.',
  source: PRACTICE,
  example: { lift: 'rotary', fails: { [MOTOR.rotary]: '32.5 kW' }, at: MOTOR.rotary },
  needs: { ...LOAD, comfortable: limit('motor.near-rating'), most: limit('motor.overload') },
  run: ({ load, lift, comfortable, most }, context) => {
    // Above the rating another check speaks, and for the other cases too.
    if (load > most) return undefined;
    return atMost(context, {
      key: ratingKey(lift),
      kind: 'ratio',
      number: load,
      limit: comfortable,
      says: (own, allowed) =>
        `In the case '${context.caseName}' the motor is loaded to ${own} of its rating; above ${allowed} little is left in reserve. Take a stronger motor, or ask less of it.`,
      follows: ['motor.overload', 'pump.thrust'],
    });
  },
});

export const MOTOR_LIGHT_LOAD: Check = check({
  id: 'motor.light-load',
  severity: 'note',
  title: 'motor hardly loaded',
  compares: 'the highest load of any case with 30 % of the rating of the motor',
  why: 'A motor so large for its pump points to a wrong data sheet; an underload trip has no room below its current.',
  mend: 'Look whether pump and motor belong together.',
  source: PRACTICE,
  example: { lift: 'rotary', fails: { [MOTOR.rotary]: '200 kW' }, at: MOTOR.rotary },
  needs: { loads: eachCase('motor.load'), lift: text('lift'), least: limit('motor.light-load') },
  run: ({ loads, lift, least }, context) => {
    const highest = Math.max(...loads.filter(Number.isFinite));
    if (!(highest < least)) return undefined;
    return {
      key: ratingKey(lift),
      message: `No case loads the motor to more than ${context.show(highest, 'ratio')} of its rating; less than ${context.show(least, 'ratio')} points to a wrong data sheet. Look whether pump and motor belong together.`,
      value: { number: highest, kind: 'ratio' },
      limit: { number: least, kind: 'ratio' },
    };
  },
});
