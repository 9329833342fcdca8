import { DIRECT_ON_LINE, ROTARY, WITH_DRIVE } from '../conditions.ts';
import {
  declareValue,
  entry,
  type Input,
  type Method,
  method,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { systemHead } from '../lift/system.ts';
import { bracketedRoot } from '../numeric/roots.ts';
import { GRAVITY, GRAVITY_SOURCE } from '../physics.ts';
import { pumpHead, type RotaryPump, ratioAtRate } from './operating-point.ts';
import { ROTARY_PUMP, rotaryPump } from './rotary-inputs.ts';

const SHUT_OFF_SOURCE = 'data-sheet head at zero rate, affinity laws, shaft speed with slip';
const NO_SHUT_OFF = 'the curve does not begin at zero rate';
/** Beyond twice its frequency no pump is run, and the slip of its motor has no meaning any more. */
const LARGEST_FREQUENCY_RATIO = 2;

/** The same pump on the same shaft at another frequency, Hz. */
export function atFrequency(pump: RotaryPump, frequency: number): RotaryPump {
  const { shaft } = pump;
  return { ...pump, shaft: { ...shaft, frequency, noLoadRatio: (shaft.noLoadRatio * frequency) / shaft.frequency } };
}

/** Head against a closed valve, m; NaN where the curve does not begin at zero rate. */
export function shutOffHead(pump: RotaryPump): number {
  return pumpHead(pump, 0, ratioAtRate(pump, 0));
}

/** Frequency at which the pump just holds a head (m) without moving anything, Hz. */
function frequencyToHold(pump: RotaryPump, head: number): number {
  const surplus = (frequency: number) => shutOffHead(atFrequency(pump, frequency)) - head;
  return bracketedRoot(surplus, pump.shaft.frequency * 1e-3, pump.shaft.frequency * LARGEST_FREQUENCY_RATIO);
}

export const MAX_FREQUENCY = entry('setpoints.drive.max_frequency');
export const MIN_FREQUENCY = entry('setpoints.drive.min_frequency');

/** Shut-off head at a frequency that a drive's setpoint gives; direct on line there is only the supply's. */
function shutOffAt(formula: string, frequency: Input<number>): readonly Method[] {
  return [
    method({
      when: [ROTARY, WITH_DRIVE],
      formula,
      source: SHUT_OFF_SOURCE,
      inputs: { ...ROTARY_PUMP, limit: frequency },
      without: NO_SHUT_OFF,
      compute: ({ limit, ...seen }) => shutOffHead(atFrequency(rotaryPump(seen), limit)),
    }),
    method({
      when: [ROTARY, DIRECT_ON_LINE],
      formula: 'H(0) at the running frequency',
      source: SHUT_OFF_SOURCE,
      inputs: { head: value('pump.shut_off_head') },
      compute: ({ head }) => head,
    }),
  ];
}

const STATIC_LIFT = value('lift.static_head');

export const SHUT_OFF: readonly ValueDeclaration[] = [
  declareValue({
    id: 'lift.static_head',
    title: 'head that the pump must hold before anything moves, the well at rest',
    kind: 'length',
    formula: '(p_tubing + ρ·g·tvd_intake − p_static)/(ρ·g)',
    source: GRAVITY_SOURCE,
    when: [ROTARY],
    inputs: { ...ROTARY_PUMP, pressure: value('intake.static_pressure') },
    compute: ({ pressure, ...seen }) => systemHead(seen, 0, pressure),
  }),
  declareValue({
    id: 'pump.shut_off_head',
    title: 'head against a closed valve at the frequency of the case',
    kind: 'length',
    when: [ROTARY],
    formula: 'stages × H(0) × speed ratio²',
    source: SHUT_OFF_SOURCE,
    inputs: ROTARY_PUMP,
    without: NO_SHUT_OFF,
    compute: (seen) => shutOffHead(rotaryPump(seen)),
  }),
  valueBy('pump.shut_off_head_at_maximum', 'head against a closed valve at the maximum frequency', 'length', [
    ...shutOffAt('H(0) at max_frequency', MAX_FREQUENCY),
  ]),
  valueBy('pump.shut_off_head_at_minimum', 'head against a closed valve at the minimum frequency', 'length', [
    ...shutOffAt('H(0) at min_frequency', MIN_FREQUENCY),
  ]),
  declareValue({
    id: 'pump.shut_off_pressure',
    title: 'pressure across the housing against a closed valve at the maximum frequency',
    kind: 'pressure_difference',
    formula: 'ρ·g·H(0) at max_frequency',
    source: GRAVITY_SOURCE,
    inputs: { head: value('pump.shut_off_head_at_maximum'), density: value('fluid.liquid_density') },
    compute: ({ head, density }) => density * GRAVITY * head,
  }),
  declareValue({
    id: 'pump.no_flow_frequency',
    title: 'frequency below which the pump moves nothing, the well at rest',
    kind: 'frequency',
    when: [ROTARY],
    formula: 'f with H(0)·(speed ratio)² = static head',
    source: SHUT_OFF_SOURCE,
    inputs: { ...ROTARY_PUMP, head: STATIC_LIFT },
    without: 'no frequency up to twice that of the case holds the column, or the curve does not begin at zero rate',
    compute: ({ head, ...seen }) => (head <= 0 ? 0 : frequencyToHold(rotaryPump(seen), head)),
  }),
  declareValue({
    id: 'pump.housing_limit_frequency',
    title: 'frequency at which the housing stands its most against a closed valve',
    kind: 'frequency',
    when: [ROTARY],
    formula: 'f with ρ·g·H(0)·(speed ratio)² = pressure_max, at most twice that of the case',
    source: SHUT_OFF_SOURCE,
    inputs: { ...ROTARY_PUMP, most: entry('equipment.pump.pressure_max') },
    without: NO_SHUT_OFF,
    compute: ({ most, ...seen }) => {
      const pump = rotaryPump(seen);
      const head = most / (seen.density * GRAVITY);
      const highest = seen.frequency * LARGEST_FREQUENCY_RATIO;
      return shutOffHead(atFrequency(pump, highest)) <= head ? highest : frequencyToHold(pump, head);
    },
  }),
];
