import type { Severity } from '../../findings/finding.ts';
import { DIRECT_ON_LINE, present } from '../../values/conditions.ts';
import type { Condition } from '../../values/declare.ts';

/** What the format knows of one protection. */
export interface Protection {
  /** Key under `setpoints.protection`. */
  readonly name: string;
  /** As one says it before "protection", "trip" or "alarm". */
  readonly title: string;
  /** Kind of quantity of trip, alarm and reset; a protection without one either acts or does not. */
  readonly kind: string | undefined;
  /** Whether it acts when what it watches falls or when it rises. */
  readonly acts: 'falling' | 'rising';
  /** Last part of the limits on its usual delay, `protection.delay-unusual.…`. */
  readonly delays: string | undefined;
  /** Whether it may act at once. */
  readonly atOnce: boolean;
  /** Channel of the gauge that it is read from, under `equipment.gauge.measures`. */
  readonly channel: string | undefined;
  /** Whether it is compared with the motor's current over the whole cycle, or within a stroke, of a linear pump. */
  readonly strokes: boolean;
  /** How bad it is if it is not set; nothing where many units do without. */
  readonly needed: { readonly severity: Severity; readonly when: readonly Condition[] } | undefined;
}

const needed = (severity: Severity, ...when: readonly Condition[]) => ({ severity, when });

const ROW = {
  kind: undefined,
  acts: 'rising',
  delays: undefined,
  atOnce: false,
  channel: undefined,
  strokes: false,
  needed: undefined,
} as const;
const CURRENT = { ...ROW, kind: 'current' } as const;
const VOLTAGE = { ...ROW, kind: 'voltage', delays: 'voltage', needed: needed('warning') } as const;
const UNBALANCE = { ...ROW, kind: 'ratio', delays: 'unbalance', needed: needed('warning') } as const;
const PRESSURE = { ...ROW, kind: 'pressure', delays: 'gauge' } as const;
const TEMPERATURE = { ...ROW, kind: 'temperature', delays: 'gauge' } as const;

const MEASURES_MOTOR_TEMPERATURE = present('equipment.gauge.measures.motor_temperature');

/** The protections of the format, in its order. */
export const PROTECTIONS: readonly Protection[] = [
  { ...CURRENT, name: 'overload', title: 'overload', delays: 'overload', strokes: true, needed: needed('error') },
  {
    ...CURRENT,
    name: 'underload',
    title: 'underload',
    acts: 'falling',
    delays: 'underload',
    strokes: true,
    needed: needed('warning'),
  },
  {
    ...CURRENT,
    name: 'short_circuit',
    title: 'short-circuit',
    delays: 'short-circuit',
    atOnce: true,
    needed: needed('error'),
  },
  { ...CURRENT, name: 'locked_rotor', title: 'locked-rotor', delays: 'stall' },
  { ...CURRENT, name: 'stall', title: 'stall', delays: 'stall' },
  { ...UNBALANCE, name: 'current_unbalance', title: 'current-unbalance', strokes: true },
  { ...VOLTAGE, name: 'overvoltage', title: 'overvoltage' },
  { ...VOLTAGE, name: 'undervoltage', title: 'undervoltage', acts: 'falling' },
  { ...UNBALANCE, name: 'voltage_unbalance', title: 'voltage-unbalance' },
  // Behind a drive the order of the supply's phases does not turn the motor; on the line it does.
  {
    ...ROW,
    name: 'phase_sequence',
    title: 'phase-sequence',
    atOnce: true,
    needed: needed('note', DIRECT_ON_LINE),
  },
  {
    ...ROW,
    name: 'earth_fault',
    title: 'earth-fault',
    kind: 'resistance',
    acts: 'falling',
    delays: 'earth-fault',
    atOnce: true,
    needed: needed('error'),
  },
  {
    ...PRESSURE,
    name: 'intake_pressure_low',
    title: 'low-intake-pressure',
    acts: 'falling',
    channel: 'intake_pressure',
  },
  { ...PRESSURE, name: 'discharge_pressure_high', title: 'high-discharge-pressure', channel: 'discharge_pressure' },
  { ...PRESSURE, name: 'wellhead_pressure_high', title: 'high-wellhead-pressure' },
  {
    ...TEMPERATURE,
    name: 'motor_temperature_high',
    title: 'motor-temperature',
    channel: 'motor_temperature',
    needed: needed('warning', MEASURES_MOTOR_TEMPERATURE),
  },
  { ...TEMPERATURE, name: 'intake_temperature_high', title: 'intake-temperature', channel: 'intake_temperature' },
  { ...ROW, name: 'vibration_high', title: 'vibration', kind: 'vibration', delays: 'gauge', channel: 'vibration' },
];

/** Dotted key of a protection. */
export function keyOf(name: string): string {
  return `setpoints.protection.${name}`;
}
