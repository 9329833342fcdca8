import { absent, DIRECT_ON_LINE, ROTARY, WITH_DRIVE, WITH_TRANSFORMER } from '../conditions.ts';
import { declareValue, entry, method, type Seen, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { receivingVoltage } from '../electrical/phasor.ts';
import { CIRCUIT_SOURCE, ROOT3 } from '../physics.ts';
import { TRANSFORMER, tapReactance, tapResistance } from '../transformer/core.ts';

const CABLE = { resistance: value('cable.resistance'), reactance: value('cable.reactance') };
const TAPPED = {
  ...TRANSFORMER,
  ...CABLE,
  tap: value('transformer.tap_voltage'),
  frequency: value('motor.frequency'),
};

interface Impedance {
  readonly resistance: number;
  readonly reactance: number;
}

/** Cable and transformer in series, per phase, seen from the motor. */
function withTransformer(seen: Seen<typeof TAPPED>): Impedance {
  return {
    resistance: seen.resistance + tapResistance(seen, seen.tap),
    reactance: seen.reactance + tapReactance(seen, seen.tap, seen.frequency),
  };
}

const LOCKED = {
  emf: value('supply.lowest_emf'),
  current: entry('equipment.motor.locked_rotor_current'),
  factor: entry('equipment.motor.locked_rotor_power_factor'),
  rated: entry('equipment.motor.voltage'),
};
type Locked = Seen<typeof LOCKED>;

/** Share of the rated voltage at a locked rotor; none is left where the circuit takes more than the supply gives. */
function leftAtStart({ emf, current, factor, rated }: Locked, { resistance, reactance }: Impedance): number {
  if (!(factor >= 0 && factor <= 1)) return Number.NaN;
  const left = receivingVoltage(emf, current, factor, resistance, reactance);
  return (Number.isNaN(left) ? 0 : left) / rated;
}

/** The same with the rotor as an impedance, which draws less as its voltage falls: a divider of voltages. */
function dividedAtStart({ emf, current, factor, rated }: Locked, { resistance, reactance }: Impedance): number {
  const rotor = rated / (ROOT3 * current);
  const inPhase = rotor * factor + resistance;
  const across = rotor * Math.sqrt(1 - factor ** 2) + reactance;
  return ((emf / rated) * rotor) / Math.hypot(inPhase, across);
}

function startVoltage(
  id: string,
  title: string,
  formula: string,
  share: (locked: Locked, circuit: Impedance) => number,
): ValueDeclaration {
  return valueBy(id, title, 'ratio', [
    method({
      when: [ROTARY, DIRECT_ON_LINE, WITH_TRANSFORMER],
      formula,
      source: CIRCUIT_SOURCE,
      inputs: { ...LOCKED, ...TAPPED },
      compute: (seen) => ({ number: share(seen, withTransformer(seen)), supply: 'low' }),
    }),
    method({
      when: [ROTARY, DIRECT_ON_LINE, absent('equipment.transformer')],
      formula,
      source: CIRCUIT_SOURCE,
      inputs: { ...LOCKED, ...CABLE },
      compute: (seen) => ({ number: share(seen, seen), supply: 'low' }),
    }),
  ]);
}

/** Two phases in series: the line voltage drives the current through twice the impedance of one. */
function faultCurrent(emf: number, { resistance, reactance }: Impedance): number {
  return emf / (2 * Math.hypot(resistance, reactance));
}

export const START_AND_FAULT: readonly ValueDeclaration[] = [
  valueBy('supply.lowest_emf', 'voltage behind the cable at the low end of the supply, without load', 'voltage', [
    method({
      when: [DIRECT_ON_LINE, WITH_TRANSFORMER],
      formula: 'V_supply·(1 − tolerance)·V_t/V_1',
      source: 'turns ratio',
      inputs: {
        lowest: value('drive.lowest_output'),
        primary: TRANSFORMER.primary,
        tap: value('transformer.tap_voltage'),
      },
      compute: ({ lowest, primary, tap }) => ({ number: (lowest * tap) / primary, supply: 'low' }),
    }),
    method({
      when: [DIRECT_ON_LINE, absent('equipment.transformer')],
      formula: 'V_supply·(1 − tolerance)',
      source: 'no transformer between supply and cable',
      inputs: { lowest: value('drive.lowest_output') },
      compute: ({ lowest }) => ({ number: lowest, supply: 'low' }),
    }),
  ]),
  startVoltage(
    'cable.start_voltage',
    'share of rated voltage left at the motor at the locked-rotor current',
    '(V_supply·(1 − tolerance)·V_t/V_1 less the drop at the locked-rotor current)/V_r',
    leftAtStart,
  ),
  startVoltage(
    'cable.start_voltage_by_impedance',
    'share of rated voltage left at a locked rotor taken as an impedance',
    '(emf/V_r)·|Z_rotor|/|Z_rotor + Z_cable + Z_transformer|, Z_rotor = V_r/(√3·I_locked)',
    dividedAtStart,
  ),
  valueBy('cable.fault_current', 'current of a two-phase fault at the motor', 'current', [
    method({
      when: [DIRECT_ON_LINE, WITH_TRANSFORMER],
      formula: 'V_supply·(1 − tolerance)·(V_t/V_1)/(2·|Z_cable + Z_transformer|)',
      source: CIRCUIT_SOURCE,
      inputs: { ...TAPPED, emf: value('supply.lowest_emf') },
      compute: (seen) => ({ number: faultCurrent(seen.emf, withTransformer(seen)), supply: 'low' }),
    }),
    method({
      when: [DIRECT_ON_LINE, absent('equipment.transformer')],
      formula: 'V_supply·(1 − tolerance)/(2·|Z_cable|)',
      source: CIRCUIT_SOURCE,
      inputs: { ...CABLE, emf: value('supply.lowest_emf') },
      compute: ({ emf, ...cable }) => ({ number: faultCurrent(emf, cable), supply: 'low' }),
    }),
    method({
      when: [WITH_DRIVE],
      formula: 'emf of the case/(2·|Z_cable + Z_transformer|), if the drive did not limit it',
      source: CIRCUIT_SOURCE,
      inputs: { ...TAPPED, emf: value('transformer.emf') },
      compute: (seen) => faultCurrent(seen.emf, withTransformer(seen)),
    }),
  ]),
  declareValue({
    id: 'cable.drop_per_length',
    title: 'voltage drop per length of cable and lead',
    kind: 'voltage_per_length',
    formula: 'drop/(main + lead)',
    source: 'definition',
    inputs: {
      drop: value('cable.voltage_drop'),
      main: value('cable.main_length'),
      lead: value('cable.lead_length'),
    },
    compute: ({ drop, main, lead }) => drop / (main + lead),
  }),
];
