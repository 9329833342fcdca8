import { switchedOn } from '../../values/conditions.ts';
import { optionalEntry } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, checkOfParts, type Judgement, part } from '../declare.ts';
import { swapOffer } from '../swap.ts';
import { keyOf, PROTECTIONS, type Protection } from './table.ts';

export const PROTECTION_ORDER: Check = checkOfParts(
  {
    id: 'protection.order',
    severity: 'error',
    title: 'alarm, trip and reset on the wrong sides of each other',
    compares:
      'alarm, trip and reset of each protection with each other: where it acts on a rise, reset, alarm and trip rise in ' +
      'this order; where it acts on a fall (underload, undervoltage, earth fault, intake pressure), they fall',
    why: 'An alarm that comes after the trip warns nobody; a reset beyond the trip lets the unit restart into the fault.',
    mend: 'Put the alarm on the healthy side of the trip, and the reset not beyond the alarm.',
    source: 'logic of limits',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.motor_temperature_high.alarm': '130 degC' },
      at: keyOf('motor_temperature_high.alarm'),
    },
  },
  PROTECTIONS.filter(({ kind }) => kind !== undefined).map((protection) => {
    const key = keyOf(protection.name);
    return part({
      when: switchedOn(protection.name),
      needs: {
        trip: optionalEntry(`${key}.trip`),
        alarm: optionalEntry(`${key}.alarm`),
        reset: optionalEntry(`${key}.reset`),
      },
      run: (levels, context) => disorder(protection, levels, context),
    });
  }),
);

type Level = 'trip' | 'alarm' | 'reset';
type Levels = Readonly<Record<Level, number | undefined>>;

/** The first pair that stands wrong; the others would be the same slip. */
function disorder(protection: Protection, levels: Levels, context: CheckContext): Judgement | undefined {
  const pairs: readonly (readonly [Level, Level, boolean])[] = [
    ['alarm', 'trip', false],
    // The window of the intake-pressure trip compares its reset.
    ...(protection.name === 'intake_pressure_low' ? [] : ([['reset', 'trip', false]] as const)),
    ['reset', 'alarm', true],
  ];
  const wrong = pairs.find(([inner, outer, mayEqual]) => !stands(protection, levels[inner], levels[outer], mayEqual));
  return wrong === undefined ? undefined : judgement(protection, levels, wrong[0], wrong[1], context);
}

/** Whether all three levels stand right once these two have changed places. */
function isMendedBySwap(protection: Protection, levels: Levels, one: Level, other: Level): boolean {
  const { trip, alarm, reset }: Levels = { ...levels, [one]: levels[other], [other]: levels[one] };
  return (
    stands(protection, alarm, trip, false) &&
    stands(protection, reset, trip, false) &&
    stands(protection, reset, alarm, true)
  );
}

/** Whether one level stands on the healthy side of another. */
function stands(protection: Protection, inner: number | undefined, outer: number | undefined, mayEqual: boolean) {
  if (inner === undefined || outer === undefined) return true;
  const distance = protection.acts === 'rising' ? outer - inner : inner - outer;
  return distance > 0 || (mayEqual && distance === 0);
}

const CONSEQUENCES: Readonly<Record<Level, string>> = {
  alarm: 'it would warn nobody',
  reset: 'the unit could restart into the same fault',
  trip: '',
};

function judgement(
  protection: Protection,
  levels: Levels,
  inner: Level,
  outer: Level,
  context: CheckContext,
): Judgement {
  const { name, title, kind = '', acts } = protection;
  const show = (level: Level) => context.show(levels[level] ?? Number.NaN, kind, `${keyOf(name)}.${level}`);
  const due = acts === 'rising' ? 'below' : 'above';
  return {
    key: `${keyOf(name)}.${inner}`,
    message: `The ${inner} of the ${title} protection, ${show(inner)}, is not ${due} its ${outer}, ${show(outer)}: ${CONSEQUENCES[inner]}. Put it ${due} ${show(outer)}.`,
    value: { number: levels[inner] ?? Number.NaN, kind },
    limit: { number: levels[outer] ?? Number.NaN, kind },
    fixes: isMendedBySwap(protection, levels, inner, outer)
      ? swapOffer(context, `${keyOf(name)}.${inner}`, `${keyOf(name)}.${outer}`)
      : [],
    related: [{ key: `${keyOf(name)}.${outer}`, message: `the ${outer}` }],
  };
}
