import { present, ROTARY } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { pacingKey } from '../case-keys.ts';
import { type Check, check } from '../declare.ts';
import { swapOffer } from '../swap.ts';
import { atLeast, atMost, type Limited } from '../within.ts';

const RANGE = 'equipment.pump.recommended_rate';
const NEEDS = { least: entry(`${RANGE}.min`), most: entry(`${RANGE}.max`) };
const SWAPPED = '{ min: 160 m3/d, max: 80 m3/d }';

export const PUMP_RECOMMENDED_RANGE: Check = check({
  id: 'pump.recommended-range',
  severity: 'error',
  title: 'recommended range upside down',
  compares: 'the least with the greatest recommended rate of the pump',
  why: 'Every case would be outside of such a range, or none.',
  mend: 'Correct the range by the data sheet.',
  source: 'definition',
  example: { lift: 'rotary', fails: { [RANGE]: SWAPPED }, at: `${RANGE}.min` },
  when: [ROTARY, present(RANGE)],
  needs: NEEDS,
  run: ({ least, most }, context) => {
    if (least < most) return undefined;
    const show = (rate: number) => context.show(rate, 'volume_rate', `${RANGE}.min`);
    return {
      key: `${RANGE}.min`,
      message: `The recommended range of the pump goes from ${show(least)} to ${show(most)}: its minimum is not below its maximum. Correct it by the data sheet.`,
      value: { number: least, kind: 'volume_rate' },
      limit: { number: most, kind: 'volume_rate' },
      fixes: swapOffer(context, `${RANGE}.min`, `${RANGE}.max`),
    };
  },
});

export const PUMP_OUTSIDE_RECOMMENDED_RANGE: Check = check({
  id: 'pump.outside-recommended-range',
  severity: 'warning',
  title: 'outside of the recommended range',
  compares: 'the rate at the intake in each case with the recommended range, brought to the shaft speed of the case',
  why: 'Outside of its range the stages float off their thrust faces: bearings and washers wear out in weeks.',
  mend: 'Change the frequency, the target or the pump.',
  source: 'affinity laws; the pump’s data sheet',
  example: { lift: 'rotary', fails: { [RANGE]: '{ min: 150 m3/d, max: 190 m3/d }' }, at: 'operation.frequency' },
  when: [ROTARY, present(RANGE)],
  needs: { ...NEEDS, rate: value('pump.rate'), ratio: value('pump.speed_ratio') },
  run: ({ least, most, rate, ratio }, context) => {
    // A range upside down is reported for what it is.
    if (least >= most) return undefined;
    const isLow = rate < least * ratio;
    const limited: Limited = {
      key: pacingKey(context),
      kind: 'volume_rate',
      number: rate,
      limit: (isLow ? least : most) * ratio,
      says: (own, end) =>
        `In the case '${context.caseName}' the pump takes ${own}; at that speed ${end} is the ${isLow ? 'least' : 'most'} that is recommended. Change the frequency or the pump.`,
      related: [{ key: RANGE, message: 'the recommended range, at the speed of the curve' }],
    };
    return isLow ? atLeast(context, limited) : atMost(context, limited);
  },
});
