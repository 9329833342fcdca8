import { formatNumber } from '../../quantity/format.ts';
import { LINEAR, present, switchedOn } from '../../values/conditions.ts';
import { entry, limit, optionalEntry, value } from '../../values/declare.ts';
import { type Check, checkOfParts, type Offer, type Part, part } from '../declare.ts';
import { reaches } from '../reaches.ts';
import { keyOf, PROTECTIONS, type Protection } from './table.ts';

const PERIODS = 2;
const STROKE_RATE = 'operation.stroke.rate';
const UPDATE_PERIOD = 'equipment.gauge.update_period';

function delayOf({ name }: Protection): string {
  return `${keyOf(name)}.delay`;
}

/** The delay that a finding asks for, with what it is. */
function delayOffer(key: string, newText: string, what: string): Offer {
  return { title: `Set the delay to ${newText}, ${what}`, kind: 'offer', key, newText };
}

export const PROTECTION_NO_DELAY: Check = checkOfParts(
  {
    id: 'protection.no-delay',
    severity: 'error',
    title: 'protection without a delay',
    compares:
      'the delay of each protection with nothing; short circuit, earth fault and phase sequence may act at once',
    why: 'Without a delay a single bad reading, the start itself or a passing dip stops the unit.',
    mend: 'Enter a delay.',
    source: 'common practice, no source',
    example: { lift: 'linear', fails: { 'setpoints.protection.underload.delay': '0 s' }, at: keyOf('underload.delay') },
  },
  PROTECTIONS.filter(({ atOnce }) => !atOnce).map((protection) =>
    part({
      when: switchedOn(protection.name),
      needs: {
        delay: entry(delayOf(protection)),
        shortest: limit(`protection.delay-unusual.${protection.delays ?? 'gauge'}`),
      },
      run: ({ delay, shortest }, context) => {
        const key = delayOf(protection);
        if (delay > 0) return undefined;
        return {
          key,
          message: `The ${protection.title} protection has a delay of ${context.show(delay, 'duration', key)}: it would act on a single reading. Enter a delay.`,
          value: { number: delay, kind: 'duration' },
          fixes: [delayOffer(key, context.show(shortest, 'duration'), 'the shortest that is usual')],
        };
      },
    }),
  ),
);

export const PROTECTION_DELAY_UNUSUAL: Check = checkOfParts(
  {
    id: 'protection.delay-unusual',
    severity: 'warning',
    title: 'unusual delay of a protection',
    compares: 'the delay of each protection with the range that is usual for it',
    why:
      'A delay far from what is usual is mostly a slip of the unit: too short, and the unit stops for nothing; too ' +
      'long, and the damage is done before the protection acts.',
    mend: 'Look at number and unit of the delay, or set the range for your units in the policy.',
    source: 'common practice, no source',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.overload.delay': '30 min' },
      at: keyOf('overload.delay'),
    },
  },
  PROTECTIONS.flatMap((protection) =>
    protection.delays === undefined ? [] : [unusualDelay(protection, `protection.delay-unusual.${protection.delays}`)],
  ),
);

function unusualDelay(protection: Protection, name: string): Part {
  const key = delayOf(protection);
  return part({
    when: switchedOn(protection.name),
    needs: {
      delay: entry(key),
      shortest: limit(name),
      longest: limit(`${name}.longest`),
      strokes: optionalEntry(STROKE_RATE),
      period: optionalEntry(UPDATE_PERIOD),
    },
    run: ({ delay, shortest, longest, strokes, period }, context) => {
      const least = leastDelay(protection, strokes, period);
      // A delay that is nothing, or too short for stroke or gauge, is a worse finding of its own.
      const isTooShort = !reaches(delay, shortest) && delay > 0 && (least === undefined || reaches(delay, least));
      if (!isTooShort && reaches(longest, delay)) return undefined;
      return {
        key,
        message: `A delay of ${context.show(delay, 'duration', key)} is unusual for ${protection.title} protection: between ${formatNumber(shortest)} and ${formatNumber(longest)} s is common. Look at number and unit.`,
        value: { number: delay, kind: 'duration' },
        limit: { number: isTooShort ? shortest : longest, kind: 'duration' },
        fixes: [
          isTooShort
            ? delayOffer(key, `${formatNumber(shortest)} s`, 'the shortest that is usual')
            : delayOffer(key, `${formatNumber(longest)} s`, 'the longest that is usual'),
        ],
      };
    },
  });
}

/** What stroke or gauge ask of a delay, in seconds; undefined where they ask nothing, or are not known. */
function leastDelay(protection: Protection, strokes?: number, period?: number): number | undefined {
  if (protection.strokes && strokes !== undefined) return 1 / strokes;
  return protection.channel !== undefined && period !== undefined ? PERIODS * period : undefined;
}

export const PROTECTION_DELAY_SHORTER_THAN_STROKE: Check = checkOfParts(
  {
    id: 'protection.delay-shorter-than-stroke',
    severity: 'error',
    title: 'delay does not suit the stroke',
    compares:
      'the delay of a current protection of a linear pump with the stroke: on the average of the cycle at least one ' +
      'full stroke of the slowest case, on the peak within the loaded stroke of the quickest',
    why:
      'The current swings with each stroke. An average over less than a stroke swings with it and trips for nothing; ' +
      'a peak is over before a longer delay has run.',
    mend: "Enter a delay that suits the stroke, or another 'basis'.",
    source: 'kinematics of a reciprocating pump',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.underload.delay': '6 s' },
      at: keyOf('underload.delay'),
    },
  },
  PROTECTIONS.filter(({ strokes }) => strokes).flatMap((protection) => [
    averagedDelay(protection),
    peakDelay(protection),
  ]),
);

/** A trip of the motor's load is the error; an overload that acts too soon only costs production. */
function strokeSeverity({ name }: Protection) {
  return name === 'overload' ? 'warning' : 'error';
}

function averagedDelay(protection: Protection): Part {
  const key = delayOf(protection);
  return part({
    when: [LINEAR, ...switchedOn(protection.name), { path: `${keyOf(protection.name)}.basis`, isNot: ['stroke_peak'] }],
    needs: { delay: entry(key), rate: entry(STROKE_RATE, 'stroke_rate') },
    run: ({ delay, rate }, context) => {
      const stroke = 1 / rate;
      if (!(delay > 0 && Number.isFinite(stroke)) || reaches(delay, stroke)) return undefined;
      const show = (seconds: number) => context.show(seconds, 'duration', key);
      return {
        key,
        severity: strokeSeverity(protection),
        message: `The ${protection.title} protection averages over ${show(delay)}, and a stroke takes ${show(stroke)} in the case '${context.caseName}': it would swing with the stroke. Enter at least ${show(stroke)}.`,
        value: { number: delay, kind: 'duration' },
        limit: { number: stroke, kind: 'duration' },
        fixes: [delayOffer(key, `${Math.ceil(stroke)} s`, 'a full stroke of the slowest case')],
        related: [{ key: STROKE_RATE, message: 'the stroke rate' }],
      };
    },
  });
}

function peakDelay(protection: Protection): Part {
  const key = delayOf(protection);
  const basis = `${keyOf(protection.name)}.basis`;
  return part({
    when: [LINEAR, ...switchedOn(protection.name), present(basis), { path: basis, is: ['stroke_peak'] }],
    needs: {
      delay: entry(key),
      rate: entry(STROKE_RATE, 'stroke_rate'),
      share: value('pump.loaded_share'),
    },
    run: ({ delay, rate, share }, context) => {
      const loaded = share / rate;
      if (!Number.isFinite(loaded) || reaches(loaded, delay)) return undefined;
      const show = (seconds: number) => context.show(seconds, 'duration', key);
      return {
        key,
        severity: strokeSeverity(protection),
        message: `The ${protection.title} protection watches the peak for ${show(delay)}, and the loaded stroke lasts ${show(loaded)} in the case '${context.caseName}': it would never act. Enter less than ${show(loaded)}.`,
        value: { number: delay, kind: 'duration' },
        limit: { number: loaded, kind: 'duration' },
        related: [{ key: STROKE_RATE, message: 'the stroke rate' }],
      };
    },
  });
}

export const PROTECTION_DELAY_SHORTER_THAN_GAUGE: Check = checkOfParts(
  {
    id: 'protection.delay-shorter-than-gauge',
    severity: 'error',
    title: 'delay shorter than two readings of the gauge',
    compares: 'the delay of a protection that rests on the gauge with two of its update periods',
    why: 'Within a shorter delay there is one reading at most: a single bad one stops the unit.',
    mend: 'Enter a delay of at least two update periods.',
    source: 'logic of sampled readings',
    example: {
      lift: 'rotary',
      fails: { 'setpoints.protection.intake_pressure_low.delay': '5 s' },
      at: keyOf('intake_pressure_low.delay'),
    },
  },
  PROTECTIONS.filter(({ channel }) => channel !== undefined).map((protection) => {
    const key = delayOf(protection);
    return part({
      when: [...switchedOn(protection.name), present('equipment.gauge')],
      needs: { delay: entry(key), period: entry(UPDATE_PERIOD) },
      run: ({ delay, period }, context) => {
        const least = PERIODS * period;
        if (!(delay > 0) || reaches(delay, least)) return undefined;
        const show = (seconds: number) => context.show(seconds, 'duration', key);
        return {
          key,
          message: `The ${protection.title} protection acts after ${show(delay)}, and the gauge sends a reading every ${show(period)}: one bad reading would stop the unit. Enter at least ${show(least)}.`,
          value: { number: delay, kind: 'duration' },
          limit: { number: least, kind: 'duration' },
          fixes: [delayOffer(key, `${Math.ceil(least)} s`, 'two readings of the gauge')],
          related: [{ key: UPDATE_PERIOD, message: 'the update period of the gauge' }],
        };
      },
    });
  }),
);
