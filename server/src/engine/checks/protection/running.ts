import type { CheckTexts } from '../../findings/texts.ts';
import { capitalise } from '../../text/words.ts';
import { switchedOn } from '../../values/conditions.ts';
import { entry, type Input, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { keyOf, PROTECTIONS } from './table.ts';

interface Text extends Pick<CheckTexts, 'id' | 'why' | 'source' | 'example'> {
  /** Key of the protection. */
  readonly protection: string;
  /** What it watches, in a case. */
  readonly running: Input<number>;
  /** The same as a noun. */
  readonly watched: string;
}

/** A protection on a rise that healthy running would set off. */
function belowRunning({ protection: name, running, watched, ...texts }: Text): Check {
  const { title = '', kind = '' } = PROTECTIONS.find((each) => each.name === name) ?? {};
  const key = `${keyOf(name)}.trip`;
  return check({
    ...texts,
    severity: 'error',
    title: `${title} trip that normal running sets off`,
    compares: `the ${title} trip with ${watched} in every case`,
    mend: `Set the trip above ${watched}, or look at the case.`,
    when: switchedOn(name),
    needs: { trip: entry(key), running },
    run: ({ trip, running: reached }, context) => {
      if (trip > reached) return { margin: { number: trip - reached, kind: difference(kind) } };
      const show = (number: number) => context.show(number, kind, key);
      return {
        key,
        message: `${capitalise(watched)} is ${show(reached)} in the case '${context.caseName}', and the ${title} trip is ${show(trip)}: normal running would stop the unit. Set it above ${show(reached)}.`,
        value: { number: trip, kind },
        limit: { number: reached, kind },
      };
    },
  });
}

function difference(kind: string): string {
  return kind === 'pressure' || kind === 'temperature' ? `${kind}_difference` : kind;
}

export const WELLHEAD_PRESSURE_BELOW_RUNNING = belowRunning({
  id: 'wellhead-pressure.below-running',
  protection: 'wellhead_pressure_high',
  running: entry('well.wellhead.tubing_pressure', 'tubing_pressure'),
  watched: 'the tubing pressure at the wellhead',
  why: 'The unit trips in normal running, and the protection is then set far too high or switched off.',
  source: 'logic of limits',
  example: {
    lift: 'linear',
    fails: { 'setpoints.protection.wellhead_pressure_high': '{ trip: 12 bar, delay: 2 s }' },
    at: keyOf('wellhead_pressure_high.trip'),
  },
});

export const DISCHARGE_PRESSURE_BELOW_RUNNING = belowRunning({
  id: 'discharge-pressure.below-running',
  protection: 'discharge_pressure_high',
  running: value('lift.discharge_pressure'),
  watched: 'the discharge pressure of the pump',
  why: 'The unit trips in normal running, and the protection is then set far too high or switched off.',
  source: 'hydrostatics and friction, any text',
  example: {
    lift: 'rotary',
    fails: { 'setpoints.protection.discharge_pressure_high': '{ trip: 90 bar, delay: 9 s }' },
    at: keyOf('discharge_pressure_high.trip'),
  },
});

export const INTAKE_TEMPERATURE_BELOW_RUNNING = belowRunning({
  id: 'intake-temperature.below-running',
  protection: 'intake_temperature_high',
  running: value('intake.temperature'),
  watched: 'the temperature of the well at the intake',
  why: 'The unit trips in normal running, and the protection is then set far too high or switched off.',
  source: 'temperature gradient of the well',
  example: {
    lift: 'linear',
    fails: { 'setpoints.protection.intake_temperature_high': '{ trip: 45 degC, delay: 30 s }' },
    passes: { 'setpoints.protection.intake_temperature_high': '{ trip: 85 degC, delay: 30 s }' },
    at: keyOf('intake_temperature_high.trip'),
  },
});
