import { absent, DIRECT_ON_LINE, present, TRIMMED, VOLTS_PER_HERTZ, WITH_DRIVE } from '../conditions.ts';
import {
  declareValue,
  eachCase,
  entry,
  entryOr,
  knownCases,
  limit,
  method,
  type Outcome,
  optionalEntry,
  rows,
  type Seen,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { lineShare } from '../drive/available.ts';
import { ROOT3 } from '../physics.ts';
import {
  FLUX,
  FLUX_SOURCE,
  LOAD,
  type Load,
  neededDriveVoltage,
  saturationVoltage,
  TRANSFORMER,
  TRANSFORMER_SOURCE,
  type Transformer,
} from './core.ts';

export const TAPS = rows('equipment.transformer.taps', { tap: 'text', voltage: 'number' });

const CLOSE = 1e-7;
const ROUNDS = 500;
const BEYOND_ANY_TAP = 1e6;
/** Share of the voltage that a motor needs beyond which it gets too much (NEMA MG-1 12.44, from memory). */
const MOST_AT_TERMINALS = 1.1;

/**
 * The least tap voltage at which the load's emf is within what drive and core give. The emf and the load factor are
 * taken at that same tap: need(tap) grows with tap, so repeated substitution climbs to the least solution.
 * @returns NaN if there is none: the transformer's own impedance takes more than a higher tap adds
 */
export function leastTap(transformer: Transformer, load: Load, given: (tap: number) => number): number {
  let tap = load.voltage;
  for (let round = 0; round < ROUNDS && tap < BEYOND_ANY_TAP; round++) {
    const next = (neededDriveVoltage(transformer, load, tap) * tap) / given(tap);
    if (Math.abs(next - tap) <= CLOSE * next) return next;
    tap = next;
  }
  return Number.NaN;
}

/** The tap at which the drive must give just `output` for a load; need(tap) climbs as in {@link leastTap}. */
function tapForOutput(transformer: Transformer, load: Load, output: number): number {
  return leastTap(transformer, load, () => output);
}

/** Share of its voltage with which a motor still runs (NEMA MG-1 12.44, from memory). */
const LEAST_AT_TERMINALS = 0.9;

/** What a tap must feed: the transformer, the load, and the flux that the core stands. */
const NEED = { ...TRANSFORMER, ...LOAD, ...FLUX };

/** The least tap at which a voltage from drive or supply serves the load, the core not driven past its flux. */
function needFrom(supplied: number, seen: Seen<typeof NEED>): number {
  return leastTap(seen, seen, (tap) => Math.min(supplied, saturationVoltage(seen, seen.fluxNoLoad, { ...seen, tap })));
}

/** The same load at the least voltage that the motor still runs with; for the same power it draws more. */
function sagged(seen: Seen<typeof NEED>): Seen<typeof NEED> {
  return { ...seen, voltage: LEAST_AT_TERMINALS * seen.voltage, current: seen.current / LEAST_AT_TERMINALS };
}

const FILTER_DROP = 'equipment.drive.filter_voltage_drop';
const NO_TAP = 'no tap serves: what a higher tap adds, its own impedance takes';

/** The case with the extreme number, cases that it does not concern left out. */
function extreme(numbers: readonly number[], better: (a: number, b: number) => boolean): Outcome {
  let found: Outcome = { number: Number.NaN };
  numbers.forEach((number, caseIndex) => {
    if (Number.isFinite(number) && !(better(found.number, number) || found.number === number)) {
      found = { number, caseIndex };
    }
  });
  return found;
}

export const greatest = (numbers: readonly number[]) => extreme(numbers, (a, b) => a > b);
export const least = (numbers: readonly number[]) => extreme(numbers, (a, b) => a < b);

const SPARE = { low: value('transformer.tap_min'), margin: limit('tap.thin-margin') };

const LIMITS_FROM_ABOVE = {
  'drive current': knownCases('transformer.tap_limit_drive_current'),
  'winding current': eachCase('transformer.tap_limit_winding_current'),
  'voltage class': value('transformer.tap_limit_voltage_class'),
  'over-voltage at light load': knownCases('transformer.tap_limit_light_load'),
};

export const TAP_WINDOW: readonly ValueDeclaration[] = [
  declareValue({
    id: 'transformer.tap_need',
    title: 'least tap voltage that serves the case',
    kind: 'voltage',
    formula: 'emf·V_1/available voltage, emf and load factor taken at that same tap',
    source: `${TRANSFORMER_SOURCE}; ${FLUX_SOURCE}`,
    inputs: { ...NEED, supplied: value('drive.supply_voltage') },
    without: NO_TAP,
    compute: ({ supplied, ...seen }) => ({ number: needFrom(supplied, seen), supply: 'low' }),
  }),
  declareValue({
    id: 'transformer.tap_need_behind_filter',
    title: 'least tap voltage that serves the case behind the drive’s output filter',
    kind: 'voltage',
    when: [WITH_DRIVE, present(FILTER_DROP)],
    formula: 'emf·V_1/(available voltage·(1 − filter drop)), emf and load factor taken at that same tap',
    source: `${TRANSFORMER_SOURCE}; ${FLUX_SOURCE}; the filter’s drop from the drive’s data sheet, taken in phase: the safe side`,
    inputs: { ...NEED, supplied: value('drive.supply_voltage'), drop: entry(FILTER_DROP) },
    without: NO_TAP,
    compute: ({ supplied, drop, ...seen }) => ({ number: needFrom(supplied * (1 - drop), seen), supply: 'low' }),
  }),
  declareValue({
    id: 'transformer.tap_need_on_the_line',
    title: 'least tap voltage with which a motor on the line still runs as it should',
    kind: 'voltage',
    when: [DIRECT_ON_LINE],
    formula: 'emf for 0.9·V_m at I/0.9, times V_1/lowest voltage of the supply',
    source: `NEMA MG-1 12.44, − 10 % for motors in general (from memory); ${TRANSFORMER_SOURCE}`,
    inputs: { ...NEED, supplied: value('drive.supply_voltage') },
    without: NO_TAP,
    compute: ({ supplied, ...seen }) => ({ number: needFrom(supplied, sagged(seen)), supply: 'low' }),
  }),
  declareValue({
    id: 'transformer.tap_need_at_nominal_supply',
    title: 'least tap voltage that serves the case on the line at the supply’s nominal voltage',
    kind: 'voltage',
    when: [DIRECT_ON_LINE],
    formula: 'emf·V_1/V_supply, emf and load factor taken at that same tap',
    source: `${TRANSFORMER_SOURCE}; ${FLUX_SOURCE}`,
    inputs: { ...NEED, supplied: entry('supply.voltage') },
    without: NO_TAP,
    compute: ({ supplied, ...seen }) => needFrom(supplied, seen),
  }),
  declareValue({
    id: 'transformer.tap_min',
    title: 'least tap voltage that serves every case',
    kind: 'voltage',
    formula: 'max over cases of emf·V_1/available voltage',
    source: TRANSFORMER_SOURCE,
    inputs: { needs: eachCase('transformer.tap_need') },
    compute: ({ needs }) => ({ ...greatest(needs), supply: 'low' }),
  }),
  valueBy(
    'transformer.tap_comfortable',
    'least tap voltage that serves every case with something to spare',
    'voltage',
    [
      method({
        when: [WITH_DRIVE, present(FILTER_DROP)],
        formula: 'greater of tap_min·(1 + margin) and the need of any case behind the filter',
        source: 'common practice, no source',
        inputs: { ...SPARE, filtered: eachCase('transformer.tap_need_behind_filter') },
        compute: ({ low, margin, filtered }) => Math.max(low * (1 + margin), greatest(filtered).number),
      }),
      method({
        when: [WITH_DRIVE, absent(FILTER_DROP)],
        formula: 'tap_min·(1 + margin)',
        source: 'common practice, no source',
        inputs: SPARE,
        compute: ({ low, margin }) => low * (1 + margin),
      }),
      method({
        when: [DIRECT_ON_LINE],
        formula:
          'max over cases of the need at the supply’s nominal voltage, at least what the low end of the supply asks',
        source:
          'on the line the voltage goes with the supply; the middle of its band is aimed at (common practice, no source)',
        inputs: {
          nominal: eachCase('transformer.tap_need_at_nominal_supply'),
          sagging: eachCase('transformer.tap_need_on_the_line'),
        },
        compute: ({ nominal, sagging }) => greatest([greatest(nominal).number, greatest(sagging).number]).number,
      }),
    ],
  ),
  declareValue({
    id: 'transformer.tap_limit_drive_current',
    title: 'tap voltage at which the drive’s current is used up',
    kind: 'voltage',
    when: [WITH_DRIVE],
    formula: 'V_1·I_drive/I',
    source: 'current ratio of a transformer, any machines text',
    inputs: {
      primary: TRANSFORMER.primary,
      rating: value('drive.current_rating'),
      current: value('motor.current'),
    },
    compute: ({ primary, rating, current }) => (primary * rating) / current,
  }),
  declareValue({
    id: 'transformer.tap_limit_winding_current',
    title: 'tap voltage at which the winding’s current is used up',
    kind: 'voltage',
    formula: 'S/(√3·I)',
    source: 'rated current of a tapping, IEC 60076-1 (from memory)',
    inputs: { power: TRANSFORMER.power, current: value('motor.current') },
    compute: ({ power, current }) => power / (ROOT3 * current),
  }),
  declareValue({
    id: 'transformer.voltage_class',
    title: 'lowest voltage class that cable, lead and motor state',
    kind: 'voltage',
    formula: 'min over cable, lead and motor',
    source: 'data sheets',
    inputs: {
      sections: rows('equipment.cable.main', { voltage_class: 'number' }),
      lead: optionalEntry('equipment.cable.motor_lead.voltage_class'),
      motor: optionalEntry('equipment.motor.voltage_class'),
    },
    compute: ({ sections, lead, motor }) => {
      const lowest = Math.min(...sections.map((each) => each.voltage_class));
      return Math.min(lowest, lead ?? lowest, motor ?? lowest);
    },
  }),
  declareValue({
    id: 'transformer.tap_limit_voltage_class',
    title: 'tap voltage at which the insulation’s class is reached',
    kind: 'voltage',
    formula: 'lowest class·V_1/highest output of the drive',
    source: 'turns ratio; no allowance for one earthed phase is taken: class against line voltage',
    inputs: {
      lowest: value('transformer.voltage_class'),
      primary: TRANSFORMER.primary,
      highest: value('drive.highest_output'),
    },
    compute: ({ lowest, primary, highest }) => ({ number: (lowest * primary) / highest, supply: 'high' }),
  }),
  valueBy('transformer.tap_limit_light_load', 'tap voltage at which a lightly loaded motor gets too much', 'voltage', [
    method({
      when: [WITH_DRIVE, VOLTS_PER_HERTZ],
      formula:
        'tap at which the drive’s volts-per-hertz output leaves 1.10·V_m(f) at the terminals, at the case’s current',
      source: `NEMA MG-1 12.44, + 10 % for motors in general (from memory); ${TRANSFORMER_SOURCE}`,
      inputs: {
        ...TRANSFORMER,
        ...LOAD,
        highest: value('drive.highest_output'),
        rating: entry('equipment.drive.output_voltage'),
        boost: entryOr('setpoints.drive.boost', 0, 'no boost where none is entered'),
        base: entry('setpoints.drive.base_frequency'),
      },
      without: 'at no tap does the motor get that much: the transformer’s own impedance takes it',
      compute: ({ highest, rating, boost, base, ...seen }) => {
        const output = Math.min(highest, rating * lineShare(seen.frequency, base) + boost);
        const overVoltage = { ...seen, voltage: MOST_AT_TERMINALS * seen.voltage };
        return { number: tapForOutput(seen, overVoltage, output), supply: 'high' };
      },
    }),
  ]),
  valueBy('transformer.tap_max', 'highest tap voltage that all limits allow', 'voltage', [
    method({
      when: [WITH_DRIVE, TRIMMED],
      formula: 'min over cases of drive current, winding current and voltage class',
      source: TRANSFORMER_SOURCE,
      inputs: LIMITS_FROM_ABOVE,
      compute: lowestLimit,
    }),
    method({
      when: [WITH_DRIVE, VOLTS_PER_HERTZ],
      formula: 'min over cases of drive current, winding current, voltage class and over-voltage at light load',
      source: TRANSFORMER_SOURCE,
      inputs: LIMITS_FROM_ABOVE,
      compute: lowestLimit,
    }),
    method({
      when: [{ path: 'equipment.drive', present: false }],
      formula: 'min over cases of winding current and voltage class',
      source: TRANSFORMER_SOURCE,
      inputs: LIMITS_FROM_ABOVE,
      compute: lowestLimit,
    }),
  ]),
  declareValue({
    id: 'transformer.recommended_tap',
    title: 'lowest tap on the plate within the window',
    kind: 'count',
    formula: 'lowest listed tap with tap_min ≤ V_t ≤ tap_max',
    source: 'definition',
    inputs: { taps: TAPS, low: value('transformer.tap_min'), high: value('transformer.tap_max') },
    without: 'no tap on the plate lies within the window, or the one that does bears no number',
    compute: ({ taps, low, high }) => Number(lowestTapWithin(taps, low, high)?.tap ?? Number.NaN),
  }),
];

/** A tap as the plate lists it. */
export interface PlateTap {
  readonly tap: string;
  readonly voltage: number;
}

/** The lowest listed tap inside a window, both ends included. */
export function lowestTapWithin(taps: readonly PlateTap[], low: number, high: number): PlateTap | undefined {
  return taps
    .filter(({ voltage }) => voltage >= low && voltage <= high)
    .reduce<PlateTap | undefined>(
      (lowest, tap) => (lowest === undefined || tap.voltage < lowest.voltage ? tap : lowest),
      undefined,
    );
}

const AT_HIGH_SUPPLY: ReadonlySet<string> = new Set(['voltage class', 'over-voltage at light load']);

function lowestLimit(limits: Readonly<Record<string, number | readonly number[]>>): Outcome {
  let found: Outcome = { number: Number.NaN };
  for (const [binding, limit] of Object.entries(limits)) {
    const outcome = typeof limit === 'number' ? { number: limit } : least(limit);
    if (!Number.isFinite(outcome.number) || outcome.number >= found.number) continue;
    found = { ...outcome, binding, ...(AT_HIGH_SUPPLY.has(binding) ? { supply: 'high' } : {}) };
  }
  return found;
}
