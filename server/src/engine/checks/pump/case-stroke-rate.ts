import { LINEAR, present } from '../../values/conditions.ts';
import { entry, optionalInCase } from '../../values/declare.ts';
import { keyInCase } from '../case-keys.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const MOST = 'equipment.pump.stroke_rate_max';
const CASE = 'operation.cases[0]';

export const PUMP_CASE_STROKE_RATE: Check = check({
  id: 'pump.case-stroke-rate',
  severity: 'error',
  title: 'stroke rate of a case above what the pump allows',
  compares: 'the stroke rate that a case has of its own with the highest on the pump’s data sheet',
  why: 'The valves no longer close in time, and the plunger wears.',
  mend: 'Lower the stroke rate of the case.',
  source: 'the pump’s data sheet',
  example: {
    lift: 'linear',
    fails: { [`${CASE}.stroke_rate`]: '12 /min' },
    at: `${CASE}.stroke_rate`,
  },
  when: [LINEAR, present(MOST)],
  needs: { rate: optionalInCase('stroke_rate'), most: entry(MOST) },
  run: ({ rate, most }, context) => {
    if (rate === undefined) return undefined;
    const key = keyInCase(context, 'stroke_rate', 'operation.stroke.rate');
    const highest = context.show(most, 'stroke_rate', key);
    return atMost(context, {
      key,
      kind: 'stroke_rate',
      number: rate,
      limit: most,
      says: (own, allowed) =>
        `The case '${context.caseName}' runs at ${own}, above the highest stroke rate of the pump, ${allowed}: its valves would not close in time. Lower it.`,
      related: [{ key: MOST, message: 'the highest stroke rate of the pump' }],
      fixes: [{ title: `Run the case at ${highest}, the pump’s highest`, kind: 'offer', key, newText: highest }],
    });
  },
});
