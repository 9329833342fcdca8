import { fromUnit } from '../quantity/convert.ts';
import { KINDS, kindNamed } from '../quantity/kinds.ts';
import type { Quantity } from '../quantity/types.ts';

/** A limit that a company may set in its policy, with the default that holds otherwise. */
export interface LimitDeclaration {
  /** The id of the check that it belongs to; with `.linear`, `.rotary` or `.error` where that has two. */
  readonly name: string;
  readonly title: string;
  readonly kind: string;
  /** In the internal unit of the kind. */
  readonly number: number;
  readonly source: string;
}

/** The limits in force for one document: the policy's where it sets one, the defaults elsewhere. */
export class LimitTable {
  readonly #set: ReadonlyMap<string, number>;

  constructor(set: ReadonlyMap<string, number> = new Map()) {
    this.#set = set;
  }

  /** @throws Error for a name that is not declared: a mistake of the programmer. */
  number(name: string): number {
    const number = this.#set.get(name) ?? DEFAULTS.get(name);
    if (number === undefined) throw new Error(`no limit is declared as '${name}'`);
    return number;
  }
}

/** Whether there is a limit of that name, and it can be what is written: a share also as a bare number. */
export function takesLimit(name: string, { unit }: Quantity): boolean {
  const declared = LIMITS.find((each) => each.name === name);
  const kind = declared && kindNamed(declared.kind);
  return kind !== undefined && ((kind === KINDS.ratio && unit === '') || fromUnit(1, kind, unit) !== undefined);
}

const PRACTICE = 'common practice, no source';
const MINUTE = 60;
const HOUR = 3600;
const FOOT = 0.3048;

function limit(name: string, title: string, kind: string, number: number, source = PRACTICE): LimitDeclaration {
  return { name, title, kind, number, source };
}

/** The usual range of a protection's delay. */
function delays(name: string, title: string, shortest: number, longest: number): readonly LimitDeclaration[] {
  const id = `protection.delay-unusual.${name}`;
  return [
    limit(id, `shortest usual delay, ${title}`, 'duration', shortest),
    limit(`${id}.longest`, `longest usual delay, ${title}`, 'duration', longest),
  ];
}

export const LIMITS: readonly LimitDeclaration[] = [
  limit('intake-trip.near-flowing', 'distance of the trip from the flowing pressure', 'ratio', 0.1),
  limit('intake-trip.shallow-submergence', 'least fluid above the intake at the trip', 'length', 30),
  limit('intake-trip.gauge-depth', 'hanging depth of the gauge that needs a correction', 'length', 5),
  limit('gauge.hanging-depth', 'how much further than the motor is long a gauge may hang below', 'length', 10),
  limit('tap.thin-margin', 'least distance from an end of the window', 'ratio', 0.02),
  limit(
    'transformer.flux',
    'volts per hertz over rated, beyond which the core is worked hard',
    'plain',
    1.05,
    'IEC 60076-1 5.4.3 (from memory)',
  ),
  limit(
    'transformer.flux.error',
    'volts per hertz over rated at no load; 0.05 less at full load',
    'plain',
    1.1,
    'IEC 60076-1 5.4.3 (from memory)',
  ),
  limit('transformer.overload', 'loading of the transformer at the case’s frequency', 'ratio', 1),
  limit('transformer.near-rating', 'loading that leaves little reserve', 'ratio', 0.95),
  limit('transformer.primary-mismatch', 'difference of primary rating and drive output', 'ratio', 0.1),
  limit('drive.overcurrent', 'loading of the drive, after derating', 'ratio', 1),
  limit('drive.near-rating', 'loading that leaves little reserve', 'ratio', 0.9),
  limit('drive.input-mismatch', 'difference of supply and rated input of the drive', 'ratio', 0.1),
  limit('drive.supply-frequency', 'difference of the frequencies of supply and drive', 'ratio', 0.05),
  limit('drive.no-filter', 'length of cable that needs a filter before it', 'length', 300),
  limit('drive.ramp', 'shortest usual ramp', 'duration', 2),
  limit('drive.ramp.longest', 'longest usual ramp', 'duration', 2 * MINUTE),
  limit('nameplate.inconsistent', 'difference of stated and computed power', 'ratio', 0.1),
  limit('nameplate.inconsistent.error', 'difference of stated and computed power', 'ratio', 0.25),
  limit('well.survey-disagrees', 'difference of given and surveyed depth', 'length', 1),
  limit('well.survey-disagrees.share', 'difference of given and surveyed depth', 'ratio', 0.002),
  limit('well.dogleg', 'dogleg over the setting interval', 'dogleg', 1.5 / 30),
  limit('well.dogleg.run-through', 'dogleg that the string is run through', 'dogleg', 6 / 30),
  limit('fit.clearance', 'least clearance in the casing', 'small_length', 0.003),
  limit('reservoir.pressure-gradient', 'least believable gradient', 'pressure_gradient', 2_000),
  limit('reservoir.pressure-gradient.highest', 'greatest believable gradient', 'pressure_gradient', 20_000),
  limit('reservoir.temperature-gradient', 'least believable gradient', 'temperature_gradient', 0.01),
  limit('reservoir.temperature-gradient.highest', 'greatest believable gradient', 'temperature_gradient', 0.06),
  limit('reservoir.bubble-point-disagrees', 'factor between stated and computed bubble point', 'plain', 3),
  limit('reservoir.bubble-point-disagrees.note', 'factor that is worth a note', 'plain', 2),
  limit('inflow.target-near-maximum', 'target over the most that the well gives', 'ratio', 0.9),
  limit('inflow.test-and-index-disagree', 'difference of stated and tested index', 'ratio', 0.1),
  limit('pump.short-of-target', 'rate over target', 'ratio', 0.95),
  limit('pump.above-target', 'rate over target', 'ratio', 1.1),
  limit('pump.cycle-inconsistent', 'difference within an over-determined cycle', 'ratio', 0.02),
  limit(
    'pump.gas-interference',
    'gas interference from which a rotary pump surges',
    'plain',
    1,
    'Turpin, Lea and Bearden 1986 (from memory)',
  ),
  limit('pump.viscous-fluid', 'viscosity that a curve on water still describes', 'viscosity', 0.02),
  limit('motor.speed-and-frequency-disagree', 'difference of speed and 2·pole pitch·frequency', 'ratio', 0.02),
  limit('motor.speed-and-frequency-disagree.slip', 'slip of an induction motor at rated load', 'ratio', 0.1),
  limit('motor.resistive-drop-uncompensated', 'resistive drop over motor voltage', 'ratio', 0.2),
  limit('motor.overload', 'load over rating', 'ratio', 1),
  limit('motor.near-rating', 'load that leaves little reserve', 'ratio', 0.95),
  limit('motor.light-load', 'load that points to a wrong motor', 'ratio', 0.3),
  limit('motor.temperature-margin', 'least distance from the insulation rating', 'temperature_difference', 10),
  limit('motor.cooling-velocity', 'least velocity past the motor', 'speed', 0.3),
  limit('motor.terminal-voltage', 'deviation of terminal voltage', 'ratio', 0.05),
  limit(
    'motor.terminal-voltage.error',
    'deviation of terminal voltage',
    'ratio',
    0.1,
    'NEMA MG-1 12.44, for motors in general (from memory)',
  ),
  limit('cable.much-too-long', 'length over the setting depth', 'ratio', 0.05),
  limit('cable.much-too-long.length', 'length over the setting depth', 'length', 50),
  limit('cable.voltage-drop', 'drop over motor voltage', 'ratio', 0.1),
  limit(
    'cable.voltage-drop.per-length',
    'drop per length of cable',
    'voltage_per_length',
    30 / (1000 * FOOT),
    'common practice; widely quoted as an API recommended practice (from memory)',
  ),
  limit('cable.start-voltage', 'voltage left at the motor at locked rotor', 'ratio', 0.6),
  limit('cable.start-voltage.error', 'voltage left at the motor at locked rotor', 'ratio', 0.5),
  limit('cable.resistance-implausible', 'difference from the standard resistance', 'ratio', 0.1),
  limit('cable.flat-untransposed', 'length of flat cable without transposition', 'length', 2_000),
  ...delays('overload', 'overload', 2, MINUTE),
  ...delays('underload', 'underload', 5, 10 * MINUTE),
  ...delays('short-circuit', 'short circuit', 0, 1),
  ...delays('stall', 'stall and locked rotor', 0.5, 10),
  ...delays('unbalance', 'unbalance of currents and voltages', 2, MINUTE),
  ...delays('voltage', 'overvoltage and undervoltage', 1, MINUTE),
  ...delays('earth-fault', 'earth fault', 0, 30),
  ...delays('gauge', 'pressures, temperatures and vibration', 2, 10 * MINUTE),
  limit('voltage.trip-useless', 'distance of a voltage trip from nominal', 'ratio', 0.2),
  limit('voltage-unbalance.high', 'trip on voltage unbalance', 'ratio', 0.05, 'NEMA MG-1 (from memory)'),
  limit('current-unbalance.high', 'trip on current unbalance', 'ratio', 0.2),
  limit('earth-fault.low', 'least insulation resistance of a trip', 'resistance', 10_000),
  limit('motor-temperature.thin-margin', 'distance of the trip from the hottest case', 'temperature_difference', 5),
  limit('overload.above-motor', 'trip over rated motor current', 'ratio', 1.15),
  limit('overload.near-running', 'trip over the highest running current', 'ratio', 1.05),
  limit('underload.near-running', 'trip over the least running current', 'ratio', 0.9),
  limit('underload.never-acts', 'trip over the least running current', 'ratio', 0.5),
  limit('short-circuit.below-start', 'trip over the highest healthy current', 'plain', 1.25),
  limit('short-circuit.never-acts', 'trip over a two-phase fault at the motor, across the line', 'ratio', 0.7),
  limit(
    'motor-temperature.thin-margin.sensor',
    'how much cooler the sensor is than the hot spot',
    'temperature_difference',
    15,
  ),
  limit('drive.base-frequency', 'volts per hertz at the motor off its nameplate', 'ratio', 0.2),
  limit('drive.base-frequency.error', 'volts per hertz at the motor off its nameplate', 'ratio', 0.4),
  limit('drive.base-frequency-unlike-motor', 'base frequency off the motor’s, trimmed voltage', 'ratio', 0.25),
  limit('restart.delay-short', 'delay without a check valve, rotary', 'duration', 30 * MINUTE),
  limit('restart.delay-short.otherwise', 'delay in other cases', 'duration', 5 * MINUTE),
  limit('restart.unlimited', 'attempts within the window', 'count', 5),
  limit('start.override-too-long.linear', 'longest first-start override', 'duration', 24 * HOUR),
  limit('start.override-too-long.rotary', 'longest first-start override', 'duration', 4 * HOUR),
  limit('start.override-at-every-start', 'override at every start, with an automatic restart', 'duration', HOUR),
  limit('handling.sling', 'rated load over the heaviest lift', 'plain', 1.25),
  limit('handling.elevator', 'bore less diameter', 'small_length', 0.002),
  limit('readings.winding-unbalance', 'unbalance of winding resistances', 'ratio', 0.05),
  limit('readings.unexpected-resistance', 'difference from the computed resistance', 'ratio', 0.1),
  limit('identity.half-edited-copy', 'entries equal to another well, at least', 'count', 8),
];

const DEFAULTS: ReadonlyMap<string, number> = new Map(LIMITS.map((each) => [each.name, each.number]));
