import { STANDARD_ATMOSPHERE } from '../../links/atmosphere.ts';
import { entry, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check } from '../declare.ts';
import { ALARM, IN_USE, RESET, TRIP } from './keys.ts';

/** How exactly two pressures must be one atmosphere apart to be the same reading on two scales: 0.005 bar. */
const SAME = 500;

export const GAUGE_ABSOLUTE: Check = check({
  id: 'intake-trip.gauge-absolute',
  severity: 'warning',
  title: 'intake pressure that seems to be gauge here and absolute there',
  compares: 'the trip with the other intake pressures of the file, where just one of the two states its reference',
  why: 'One atmosphere is a tenth of many a trip. The same reading on two scales means that one of them is misread.',
  mend: 'State the reference of both: bar(g) or bar(a), or conventions.pressure.',
  source: 'logic of units; 0.005 bar is common practice, no source',
  example: {
    lift: 'linear',
    fails: { 'operation.cases[1]': '{ name: target, intake_pressure: 17 bar(a) }' },
    at: TRIP,
  },
  when: IN_USE,
  needs: { trip: entry(TRIP), atmosphere: value('site.atmosphere') },
  run: ({ trip, atmosphere }, context) => {
    const key = otherPressures(context).find((other) => isSameReading(context, other, trip, atmosphere));
    if (key === undefined) return undefined;
    return {
      key: TRIP,
      message: `The trip '${context.text(TRIP)}' and '${context.text(key)}' of ${key} are one atmosphere apart, and only one of them says whether it is gauge or absolute. Say so for both.`,
      related: [{ key, message: 'the other pressure' }],
    };
  },
});

function otherPressures({ evaluation }: CheckContext): readonly string[] {
  const cases = Array.from({ length: evaluation.caseCount }, (_, at) => `operation.cases[${at}].intake_pressure`);
  return [ALARM, RESET, ...cases];
}

function isSameReading(context: CheckContext, key: string, trip: number, atmosphere: number): boolean {
  const located = context.evaluation.locate(key);
  const here = context.quantity(TRIP);
  const there = context.quantity(key);
  if (located === undefined || here === undefined || there === undefined) return false;
  if ((here.reference === undefined) === (there.reference === undefined)) return false;
  const apart = Math.abs(context.evaluation.installation.number(located) - trip);
  return [atmosphere, STANDARD_ATMOSPHERE].some((one) => Math.abs(apart - one) <= SAME);
}
