import { present, switchedOn } from '../../values/conditions.ts';
import { isPresent, optionalEntry } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, checkOfParts, type Judgement, part } from '../declare.ts';
import { keyOf, PROTECTIONS, type Protection } from './table.ts';

const MEASURES = 'equipment.gauge.measures';
const INTAKE_PRESSURE = 'intake_pressure_low';
const GAUGED = PROTECTIONS.flatMap((protection) =>
  protection.channel === undefined ? [] : [{ ...protection, channel: protection.channel }],
);

export const PROTECTION_NO_GAUGE: Check = checkOfParts(
  {
    id: 'protection.no-gauge',
    severity: 'error',
    title: 'protection on something that nothing measures',
    compares:
      'the protections that rest on a gauge with what the gauge measures; intake pressure has a check of its own',
    why: 'The protection never acts, or acts on a number that means nothing, and everybody relies on it.',
    mend: 'Take a gauge that measures it, or take the protection out.',
    source: 'logic of measuring',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.vibration_high': '{ trip: 12 mm/s, delay: 20 s }' },
      at: keyOf('vibration_high'),
    },
  },
  GAUGED.filter(({ name }) => name !== INTAKE_PRESSURE).map(({ name, title, channel }) =>
    part({
      when: switchedOn(name),
      needs: {
        gauge: isPresent('equipment.gauge'),
        measures: isPresent(MEASURES),
        measured: isPresent(`${MEASURES}.${channel}`),
      },
      run: ({ gauge, measures, measured }) => {
        if (measured) return undefined;
        if (gauge && !measures) return { lacks: [MEASURES] };
        const reason = gauge ? `the gauge does not measure the ${channel.replace('_', ' ')}` : 'there is no gauge';
        const message = `The ${title} protection is set, and ${reason}: it would never act. Take it out, or take a gauge that measures it.`;
        return { key: keyOf(name), message };
      },
    }),
  ),
);

export const PROTECTION_OUTSIDE_GAUGE: Check = checkOfParts(
  {
    id: 'protection.outside-gauge',
    severity: 'error',
    title: 'protection outside of what the gauge reads',
    compares:
      'trip, alarm and reset with the range of the gauge that measures them; the intake-pressure trip has a check of its own',
    why: 'The gauge stops at the end of its range, so the level is never reached and the protection never acts.',
    mend: 'Choose a level inside the range of the gauge, or a gauge that reads further.',
    source: 'logic of measuring',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.motor_temperature_high.trip': '190 degC' },
      at: keyOf('motor_temperature_high.trip'),
    },
  },
  GAUGED.map((protection) => {
    const key = keyOf(protection.name);
    const range = `${MEASURES}.${protection.channel}`;
    return part({
      when: [...switchedOn(protection.name), present(range)],
      needs: {
        trip: optionalEntry(`${key}.trip`),
        alarm: optionalEntry(`${key}.alarm`),
        reset: optionalEntry(`${key}.reset`),
        min: optionalEntry(`${range}.min`),
        max: optionalEntry(`${range}.max`),
      },
      run: ({ min, max, ...levels }, context) => {
        if (min === undefined && max === undefined) return { lacks: [`${range}.max`] };
        return Object.entries(levels).flatMap(([level, number]) => {
          const isOthers = protection.name === INTAKE_PRESSURE && level === 'trip';
          if (number === undefined || isOthers) return [];
          if (max !== undefined && number > max) return [beyond(protection, level, number, max, 'above', context)];
          if (min !== undefined && number < min) return [beyond(protection, level, number, min, 'below', context)];
          return [];
        });
      },
    });
  }),
);

function beyond(
  { name, title, kind = '', channel }: Protection,
  level: string,
  number: number,
  end: number,
  way: 'above' | 'below',
  context: CheckContext,
): Judgement {
  const key = `${keyOf(name)}.${level}`;
  const show = (each: number) => context.show(each, kind, key);
  const most = way === 'above' ? 'at most' : 'at least';
  return {
    key,
    message: `The ${level} of the ${title} protection, ${show(number)}, lies ${way} what the gauge reads, ${show(end)}: it would never be reached. Choose ${most} ${show(end)}, or a gauge that reads further.`,
    value: { number, kind },
    limit: { number: end, kind },
    related: [{ key: `${MEASURES}.${channel}`, message: 'the range of the gauge' }],
    fixes: [
      {
        title: `Set the ${level} to ${show(end)}, the end of what the gauge reads`,
        kind: 'offer',
        key,
        newText: show(end),
      },
    ],
  };
}
