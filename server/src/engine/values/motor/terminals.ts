import { DIRECT_ON_LINE, TRIMMED, VOLTS_PER_HERTZ, WITH_DRIVE } from '../conditions.ts';
import {
  declareValue,
  entry,
  entryOr,
  method,
  type Outcome,
  type Seen,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { lineShare } from '../drive/available.ts';
import { receivingVoltage } from '../electrical/phasor.ts';
import { LOAD, TRANSFORMER, tapReactance, tapResistance } from '../transformer/core.ts';

const CIRCUIT = { ...TRANSFORMER, ...LOAD, tap: value('transformer.tap_voltage') };

/** What reaches the motor when the drive gives a voltage, V line to line: the same circuit, read backwards. */
function terminalsFrom(output: number, seen: Seen<typeof CIRCUIT>): number {
  return receivingVoltage(
    (output * seen.tap) / seen.primary,
    seen.current,
    seen.powerFactor,
    seen.resistance + tapResistance(seen, seen.tap),
    seen.reactance + tapReactance(seen, seen.tap, seen.frequency),
  );
}

/** Of the terminal voltages at the two ends of the supply the one further from what the motor needs. */
function worseEnd(needed: number, low: number, high: number): Outcome {
  const lowIsWorse = !(Math.abs(high - needed) > Math.abs(low - needed));
  return lowIsWorse ? { number: low, supply: 'low' } : { number: high, supply: 'high' };
}

const BACKWARDS = 'the circuit of required surface voltage, read backwards';
const COLLAPSED = 'the circuit takes more than the drive gives';

export const MOTOR_TERMINALS: readonly ValueDeclaration[] = [
  valueBy('motor.terminal_voltage', 'voltage that the motor gets', 'voltage', [
    method({
      when: [WITH_DRIVE, TRIMMED],
      formula: 'V_m × min(1, available/needed drive voltage)',
      source: 'a trimmed drive gives what is needed as far as it has it',
      inputs: {
        motor: value('motor.voltage'),
        available: value('drive.available_voltage'),
        needed: value('drive.output_voltage'),
      },
      compute: ({ motor, available, needed }) => ({ number: motor * Math.min(1, available / needed), supply: 'low' }),
    }),
    method({
      when: [WITH_DRIVE, VOLTS_PER_HERTZ],
      formula: 'from min(rated output·f/base + boost, what the supply gives) back through transformer and cable',
      source: BACKWARDS,
      inputs: {
        ...CIRCUIT,
        lowest: value('drive.lowest_output'),
        highest: value('drive.highest_output'),
        rating: entry('equipment.drive.output_voltage'),
        base: entry('setpoints.drive.base_frequency'),
        boost: entryOr('setpoints.drive.boost', 0, 'no boost where none is entered'),
      },
      without: COLLAPSED,
      compute: ({ lowest, highest, rating, base, boost, ...seen }) => {
        const line = rating * lineShare(seen.frequency, base) + boost;
        const low = terminalsFrom(Math.min(lowest, line), seen);
        return worseEnd(seen.voltage, low, terminalsFrom(Math.min(highest, line), seen));
      },
    }),
    method({
      when: [DIRECT_ON_LINE],
      formula: 'from the supply back through transformer and cable',
      source: BACKWARDS,
      inputs: { ...CIRCUIT, lowest: value('drive.lowest_output'), highest: value('drive.highest_output') },
      without: COLLAPSED,
      compute: ({ lowest, highest, ...seen }) =>
        worseEnd(seen.voltage, terminalsFrom(lowest, seen), terminalsFrom(highest, seen)),
    }),
  ]),
  declareValue({
    id: 'motor.terminal_voltage_at_nominal_supply',
    title: 'voltage that the motor gets at the nominal voltage of the supply',
    kind: 'voltage',
    when: [DIRECT_ON_LINE],
    formula: 'from the supply’s nominal voltage back through transformer and cable',
    source: BACKWARDS,
    inputs: { ...CIRCUIT, supply: entry('supply.voltage') },
    without: COLLAPSED,
    compute: ({ supply, ...seen }) => terminalsFrom(supply, seen),
  }),
  declareValue({
    id: 'motor.voltage_deviation',
    title: 'terminal voltage over what the motor needs, less one',
    kind: 'ratio',
    formula: 'V_terminal/V_m − 1',
    source: 'definition',
    inputs: { terminal: value('motor.terminal_voltage'), needed: value('motor.voltage') },
    compute: ({ terminal, needed }) => ({
      number: terminal / needed - 1,
      supply: terminal > needed ? 'high' : 'low',
    }),
  }),
];
