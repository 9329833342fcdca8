import { FLOWING_CASE, INDUCTION, LINEAR, PERMANENT_MAGNET, present, ROTARY, WITH_DRIVE } from '../conditions.ts';
import {
  type Condition,
  declareValue,
  eachCase,
  entry,
  entryOr,
  type Input,
  type Inputs,
  type Method,
  method,
  optionalEntry,
  type Seen,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { dischargePressure, SYSTEM, systemHead } from '../lift/system.ts';
import { GRAVITY } from '../physics.ts';
import { pointAtPressure, pumpPower, type RotaryPump, ratioAtRate } from '../pump/operating-point.ts';
import { STEEL_DENSITY } from '../pump/plunger.ts';
import { ROTARY_PUMP, rotaryPump } from '../pump/rotary-inputs.ts';
import { loadOf } from '../pump/shaft-speed.ts';
import { atFrequency, MIN_FREQUENCY, shutOffHead } from '../pump/shut-off.ts';
import { greatest, least } from '../transformer/tap-window.ts';
import { CYCLE_SHARES, cycleRms, inductionCurrent, NO_LOAD_OF_MAGNETS } from './operation.ts';

const RATED = entry('equipment.motor.current');
const ONE_MACHINE = 'the current law of the motor at that load, any machines text';
const FORCE_LAW = 'permanent-magnet machine: force in proportion to current, any machines text';

/** Load of the motor while the pump moves nothing against a closed valve. */
function noFlowLoad(pump: RotaryPump): number {
  return loadOf(pump.shaft, pumpPower(pump, 0, ratioAtRate(pump, 0)));
}

/** A current of a rotary pump's motor at a load of its own, for both kinds of motor. */
function rotaryCurrent<I extends Inputs>(text: {
  readonly when: readonly Condition[];
  readonly formula: string;
  readonly inputs: I;
  readonly without: string;
  readonly load: (seen: Seen<I>) => number;
}): readonly Method[] {
  const own = text.inputs as Inputs;
  const loadFrom = text.load as (seen: unknown) => number;
  const shared = { formula: text.formula, source: ONE_MACHINE, without: text.without };
  return [
    method({
      ...shared,
      when: [ROTARY, PERMANENT_MAGNET, ...text.when],
      inputs: { ...own, ratedCurrent: RATED },
      compute: (seen) => (seen.ratedCurrent as number) * Math.abs(loadFrom(seen)),
    }),
    method({
      ...shared,
      when: [ROTARY, INDUCTION, ...text.when],
      inputs: { ...own, ratedCurrent: RATED, share: value('motor.magnetising_share') },
      compute: (seen) => inductionCurrent(seen.ratedCurrent as number, seen.share as number, loadFrom(seen)),
    }),
  ];
}

const NO_ZERO_RATE = 'the curve does not begin at zero rate';

/** The forces on a plunger without liquid to lift. */
const EMPTY = {
  rated: RATED,
  thrust: entry('equipment.motor.thrust'),
  friction: entry('equipment.pump.friction_force'),
  mass: entryOr('equipment.pump.moving_mass', 0, 'the friction force includes the weight of moving parts'),
  noLoad: NO_LOAD_OF_MAGNETS,
  density: value('fluid.produced_density'),
};

/** Current at a pressure difference over the plunger, A, at least the no-load current. */
function plungerCurrent(
  { rated, thrust, friction, mass, noLoad, density }: Seen<typeof EMPTY>,
  lifted: number,
): number {
  const weight = mass * GRAVITY * (1 - density / STEEL_DENSITY);
  return Math.max(noLoad, (rated * (lifted + friction + weight)) / thrust);
}

const RESTART_PRESSURE = {
  reservoir: entry('reservoir.pressure'),
  produced: value('fluid.produced_density'),
  below: value('well.perforations_below_intake'),
};

function staticPressure({ reservoir, produced, below }: Seen<typeof RESTART_PRESSURE>): number {
  return reservoir - produced * GRAVITY * below;
}

/** Load of the motor from a full annulus; a pump too slow to lift from there runs against its column. */
function restartLoad(seen: Seen<typeof ROTARY_PUMP & typeof RESTART_PRESSURE>, frequency: number): number {
  const pump = atFrequency(rotaryPump({ ...seen, density: seen.produced }), frequency);
  const pressure = staticPressure(seen);
  if (shutOffHead(pump) <= systemHead(pump.system, 0, pressure)) return noFlowLoad(pump);
  const { rate, ratio } = pointAtPressure(pump, pressure);
  return loadOf(pump.shaft, pumpPower(pump, rate, ratio));
}

const MINIMUM = 'setpoints.drive.min_frequency';
const NO_RESTART_POINT = 'the pump’s head and the system’s do not meet on the curve';

const RETURN = { returnLoad: value('pump.return_load') };

function returnCurrent(seen: Seen<typeof EMPTY & typeof RETURN>): number {
  return Math.max(seen.noLoad, (seen.rated * seen.returnLoad) / seen.thrust);
}

const RUNNING: Input<readonly number[]> = eachCase('motor.current');

export const RUNNING_RANGE: readonly ValueDeclaration[] = [
  valueBy('motor.idle_current', 'current of a pump that lifts nothing', 'current', [
    method({
      when: [LINEAR],
      formula: 'empty plunger: I_r·friction/thrust, at least the no-load current',
      source: FORCE_LAW,
      inputs: EMPTY,
      compute: (seen) => plungerCurrent(seen, 0),
    }),
    ...rotaryCurrent({
      when: [],
      formula: 'no flow: current at the pump’s power at zero rate, at the frequency of the case',
      inputs: ROTARY_PUMP,
      without: NO_ZERO_RATE,
      load: (seen) => noFlowLoad(rotaryPump(seen)),
    }),
  ]),
  valueBy('motor.idle_current_rms', 'current of a pump that lifts nothing, over a cycle, in its heating', 'current', [
    method({
      when: [LINEAR],
      formula: '√(Σ I²·t/T) with an empty plunger in both strokes',
      source: 'root mean square over the cycle',
      inputs: { idle: value('motor.idle_current'), ...CYCLE_SHARES },
      compute: ({ idle, ...cycle }) => cycleRms(idle, idle, cycle),
    }),
    method({
      when: [ROTARY],
      formula: 'I',
      source: 'steady running',
      inputs: { idle: value('motor.idle_current') },
      compute: ({ idle }) => idle,
    }),
  ]),
  valueBy('motor.idle_current_at_minimum', 'current of a pump that lifts nothing at the minimum frequency', 'current', [
    ...rotaryCurrent({
      when: [WITH_DRIVE],
      formula: 'no flow: current at the pump’s power at zero rate, at min_frequency',
      inputs: { ...ROTARY_PUMP, minimum: MIN_FREQUENCY },
      without: NO_ZERO_RATE,
      load: ({ minimum, ...seen }) => noFlowLoad(atFrequency(rotaryPump(seen), minimum)),
    }),
  ]),
  valueBy('motor.restart_current', 'least current after a restart: static level, produced liquid', 'current', [
    method({
      when: [LINEAR],
      formula: 'I_r·[A·(p_tubing + ρ·g·tvd_intake + friction − p_static) + friction force]/thrust, at min_frequency',
      source: FORCE_LAW,
      inputs: {
        ...SYSTEM,
        ...EMPTY,
        ...RESTART_PRESSURE,
        area: value('pump.plunger_area'),
        rate: value('pump.rate'),
        frequency: value('motor.frequency'),
        minimum: optionalEntry(MINIMUM),
      },
      compute: ({ area, rate, frequency, minimum, ...seen }) => {
        const slowed = Math.min(1, (minimum ?? frequency) / frequency);
        const discharge = dischargePressure({ ...seen, density: seen.produced }, rate * slowed);
        return plungerCurrent(seen, area * (discharge - staticPressure(seen)));
      },
    }),
    ...rotaryCurrent({
      when: [{ path: MINIMUM, present: true }],
      formula: 'current where the pump meets the system at static pressure on produced liquid, at min_frequency',
      inputs: { ...ROTARY_PUMP, ...RESTART_PRESSURE, minimum: MIN_FREQUENCY },
      without: NO_RESTART_POINT,
      load: ({ minimum, ...seen }) => restartLoad(seen, minimum),
    }),
    ...rotaryCurrent({
      when: [{ path: MINIMUM, present: false }],
      formula: 'current where the pump meets the system at static pressure on produced liquid',
      inputs: { ...ROTARY_PUMP, ...RESTART_PRESSURE },
      without: NO_RESTART_POINT,
      load: (seen) => restartLoad(seen, seen.frequency),
    }),
  ]),
  valueBy('motor.restart_current_rms', 'least current after a restart, over a cycle, in its heating', 'current', [
    method({
      when: [LINEAR],
      formula: '√(Σ I²·t/T)',
      source: 'root mean square over the cycle',
      inputs: { ...EMPTY, ...RETURN, ...CYCLE_SHARES, restart: value('motor.restart_current') },
      compute: (seen) => cycleRms(seen.restart, Math.min(seen.restart, returnCurrent(seen)), seen),
    }),
    method({
      when: [ROTARY],
      formula: 'I',
      source: 'steady running',
      inputs: { restart: value('motor.restart_current') },
      compute: ({ restart }) => restart,
    }),
  ]),
  declareValue({
    id: 'motor.full_load_frequency',
    title: 'frequency at which the duty loads the motor fully',
    kind: 'frequency',
    when: [ROTARY, WITH_DRIVE, FLOWING_CASE],
    formula: 'f/√load',
    source: 'affinity laws: power ∝ f³, the motor’s rating ∝ f',
    inputs: { frequency: value('motor.frequency'), load: value('motor.load') },
    compute: ({ frequency, load }) => frequency / Math.sqrt(load),
  }),
  declareValue({
    id: 'pump.shaft_limit_frequency',
    title: 'frequency at which the duty loads the shaft fully',
    kind: 'frequency',
    when: [ROTARY, WITH_DRIVE, FLOWING_CASE, present('equipment.pump.shaft_power_max')],
    formula: 'f·√(shaft power at that speed/P)',
    source: 'affinity laws: power ∝ f³; what a shaft stands ∝ f, its torque being the limit',
    inputs: {
      frequency: value('motor.frequency'),
      power: value('pump.power'),
      ratio: value('pump.speed_ratio'),
      most: entry('equipment.pump.shaft_power_max'),
    },
    compute: ({ frequency, power, ratio, most }) => frequency * Math.sqrt((most * ratio) / power),
  }),
  declareValue({
    id: 'motor.highest_running_current',
    title: 'highest current of any case',
    kind: 'current',
    formula: 'max over cases of I',
    source: 'definition',
    inputs: { running: RUNNING },
    compute: ({ running }) => greatest(running),
  }),
  declareValue({
    id: 'motor.least_running_current',
    title: 'least current of any case, and after a restart at static level',
    kind: 'current',
    formula: 'min over cases of I and of the current after a restart',
    source: 'definition',
    inputs: { running: RUNNING, restart: eachCase('motor.restart_current') },
    compute: ({ running, restart }) => {
      const lowest = least(running);
      const restarted = least(restart);
      return restarted.number < lowest.number ? { ...restarted, binding: 'restart' } : lowest;
    },
  }),
];
