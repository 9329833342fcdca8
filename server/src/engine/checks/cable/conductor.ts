import { awgArea } from '../../quantity/wire-gauge.ts';
import { limit } from '../../values/declare.ts';
import { isAwgArea, standardResistance, temperatureFactor } from '../../values/electrical/conductor.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { allRuns, LEAD_RUN, MAIN_KEY, MAIN_RUNS, type Run } from './runs.ts';

const MM2 = 1e-6;
const FEET_PER_METRE = 1 / 0.3048;
/** The other temperature at which resistances are tabulated, degC. */
const HOT_TABLE = 75;
/** Wire sizes beyond 4/0 are named by their area in thousands of circular mils: all those are made to order. */
const NAMED_BY_AREA = 'kcmil';

/** Resistance of a standard conductor at 20 degC, ohm/m; NaN for a size of no standard. */
function standardOf(area: number): number {
  return standardResistance(area, isAwgArea(area));
}

function agrees(one: number, other: number, most: number): boolean {
  return Math.abs(one / other - 1) <= most;
}

/** The size of the same number in the other system: 6 AWG for 6 mm2. */
function namesake(context: CheckContext, run: Run): { readonly area: number; readonly name: string } | undefined {
  const quantity = context.quantity(`${run.key}.conductor`);
  if (quantity === undefined) return undefined;
  const { number, unit } = quantity;
  return unit === 'AWG'
    ? { area: number * MM2, name: `${number} mm2` }
    : { area: awgArea(number), name: `${number} AWG` };
}

/** The sheet's resistance is not of this size and is of its namesake. */
function isNamesake(context: CheckContext, run: Run, most: number): string | undefined {
  const { conductor, resistance_20: stated } = run;
  const other = namesake(context, run);
  if (conductor === undefined || stated === undefined || other === undefined) return undefined;
  if (agrees(stated, standardOf(conductor), most)) return undefined;
  return agrees(stated, standardOf(other.area), most) ? other.name : undefined;
}

function oddSize(context: CheckContext, run: Run, most: number): readonly Judgement[] {
  const { conductor } = run;
  const key = `${run.key}.conductor`;
  if (conductor === undefined) return [];
  const written = () => context.show(conductor, 'conductor_size', key);
  const meant = isNamesake(context, run, most);
  if (meant !== undefined) {
    return [
      {
        key,
        message: `The conductor of ${run.title} is entered as ${written()}, and its resistance is that of ${meant}. Write the unit that stands on the cable.`,
        related: [{ key: `${run.key}.resistance_20`, message: 'the resistance' }],
      },
    ];
  }
  const isNamedByArea = context.quantity(key)?.unit === NAMED_BY_AREA;
  if (isNamedByArea || Number.isFinite(standardOf(conductor))) return [];
  return [
    {
      key,
      message: `A conductor of ${written()} is neither a size of IEC 60228 nor an AWG size. Look at number and unit of ${run.title}.`,
    },
  ];
}

export const CABLE_SIZE_NOT_STANDARD: Check = check({
  id: 'cable.size-not-standard',
  severity: 'warning',
  title: 'conductor of no standard size',
  compares:
    'each conductor size with those of IEC 60228 and with the AWG sizes; and its resistance with that of the same ' +
    'number in ' +
    'the other system',
  why: '6 mm2 for 6 AWG is half the copper: the resistance is off by as much, and with it the tap.',
  mend: 'Write the size and its unit as they stand on the cable.',
  source: 'IEC 60228 table 2; ASTM B258 (from memory)',
  example: { lift: 'linear', fails: { [`${MAIN_KEY}.conductor`]: '17 mm2' }, at: `${MAIN_KEY}.conductor` },
  needs: { main: MAIN_RUNS, lead: LEAD_RUN, most: limit('cable.resistance-implausible') },
  run: ({ main, lead, most }, context) =>
    allRuns(context, { main, lead }).flatMap((run) => oddSize(context, run, most)),
});

const SLIPS: readonly { readonly factor: number; readonly hint: string }[] = [
  { factor: 1 / FEET_PER_METRE, hint: 'It looks like a resistance per 1000 ft that is entered per km.' },
  { factor: FEET_PER_METRE, hint: 'It looks like a resistance per km that is entered per 1000 ft.' },
  { factor: temperatureFactor(HOT_TABLE), hint: 'It looks like the resistance at 75 degC.' },
];
const SLIP_WIDTH = 0.05;

function hintFor(ratio: number): string {
  const slip = SLIPS.find(({ factor }) => agrees(ratio, factor, SLIP_WIDTH));
  return slip?.hint ?? 'Look at resistance and size with their units.';
}

function implausible(context: CheckContext, run: Run, most: number): readonly Judgement[] {
  const { conductor, resistance_20: stated } = run;
  const due = conductor === undefined ? Number.NaN : standardOf(conductor);
  if (stated === undefined || !Number.isFinite(due) || agrees(stated, due, most)) return [];
  const key = `${run.key}.resistance_20`;
  const show = (number: number) => context.show(number, 'resistance_per_length', key);
  return [
    {
      key,
      message: `The resistance of ${run.title} is entered as ${show(stated)}; a conductor of its size has ${show(due)} at 20 degC, ${context.show(Math.abs(stated / due - 1), 'ratio')} apart. ${hintFor(stated / due)}`,
      value: { number: stated, kind: 'resistance_per_length' },
      limit: { number: due, kind: 'resistance_per_length' },
      related: [{ key: `${run.key}.conductor`, message: 'the size' }],
      fixes: [
        { title: `Take the standard’s ${show(due)}: drop and tap follow it`, kind: 'offer', key, newText: show(due) },
      ],
      ...(isNamesake(context, run, most) === undefined ? {} : { follows: ['cable.size-not-standard'] }),
    },
  ];
}

export const CABLE_RESISTANCE_IMPLAUSIBLE: Check = check({
  id: 'cable.resistance-implausible',
  severity: 'warning',
  title: 'resistance does not suit the conductor',
  compares: 'the entered resistance of each run with the standard’s for its size; a tenth is allowed',
  why: 'Drop, tap and the readings on site all rest on this resistance.',
  mend: 'Enter the resistance per km at 20 degC of the size that is run.',
  source: 'IEC 60228 table 2; ASTM B258 with 0.017241 ohm.mm2/m and 2 % lay; the limit is common practice, no source',
  example: {
    lift: 'linear',
    fails: { [`${MAIN_KEY}.resistance_20`]: '0.3505 ohm/km' },
    at: `${MAIN_KEY}.resistance_20`,
  },
  needs: { main: MAIN_RUNS, lead: LEAD_RUN, most: limit('cable.resistance-implausible') },
  run: ({ main, lead, most }, context) =>
    allRuns(context, { main, lead }).flatMap((run) => implausible(context, run, most)),
});
