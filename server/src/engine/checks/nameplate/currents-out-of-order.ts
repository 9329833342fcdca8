import { optionalEntry } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { reaches } from '../reaches.ts';

interface Step {
  readonly key: string;
  readonly title: string;
  readonly current: number | undefined;
}

/** The lower of two currents is not below the higher one; nothing to say where one of them is not known. */
function swapped(context: CheckContext, lower: Step, higher: Step): readonly Judgement[] {
  if (lower.current === undefined || higher.current === undefined) return [];
  if (!reaches(lower.current, higher.current)) return [];
  const show = (step: Step) => `${step.title} of ${context.show(step.current ?? 0, 'current', step.key)}`;
  return [
    {
      key: lower.key,
      message: `The ${show(lower)} is not below the ${show(higher)}. Compare the two with the motor’s plate and data sheet.`,
      value: { number: lower.current, kind: 'current' },
      limit: { number: higher.current, kind: 'current' },
      related: [{ key: higher.key, message: 'should be the greater one' }],
    },
  ];
}

const NO_LOAD = 'equipment.motor.no_load_current';
const RATED = 'equipment.motor.current';
const LOCKED = 'equipment.motor.locked_rotor_current';
const MOST = 'equipment.motor.current_max';

export const NAMEPLATE_CURRENTS_OUT_OF_ORDER: Check = check({
  id: 'nameplate.currents-out-of-order',
  severity: 'error',
  title: 'currents of the motor out of order',
  compares: 'no-load, rated, locked-rotor and greatest current of the motor: each below the next',
  why: 'Two currents in each other’s place give a wrong current in every case, and trips that never act.',
  mend: 'Compare the currents with the motor’s plate and data sheet.',
  source: 'any machines text',
  example: { lift: 'rotary', fails: { [NO_LOAD]: '38 A' }, at: NO_LOAD },
  needs: {
    idle: optionalEntry(NO_LOAD),
    rated: optionalEntry(RATED),
    locked: optionalEntry(LOCKED),
    most: optionalEntry(MOST),
  },
  run: ({ idle, rated, locked, most }, context) => {
    const full: Step = { key: RATED, title: 'rated current', current: rated };
    return [
      ...swapped(context, { key: NO_LOAD, title: 'no-load current', current: idle }, full),
      ...swapped(context, full, { key: LOCKED, title: 'locked-rotor current', current: locked }),
      ...swapped(context, full, { key: MOST, title: 'greatest current', current: most }),
    ];
  },
});
