import { absent, INDUCTION, PERMANENT_MAGNET, present } from '../conditions.ts';
import { entry, method, type Seen, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { temperatureFactor } from '../electrical/conductor.ts';
import { ROOT3 } from '../physics.ts';

const WINDING = 'equipment.motor.phase_resistance';

/**
 * Nameplate and working point of a machine. Voltages V line to line, currents A, frequencies Hz, temperatures degC;
 * `winding` is the resistance line to line at 20 degC, ohm.
 */
const MACHINE = {
  ratedVoltage: entry('equipment.motor.voltage'),
  ratedCurrent: entry('equipment.motor.current'),
  ratedFrequency: entry('equipment.motor.frequency'),
  ratedFactor: entry('equipment.motor.power_factor'),
  winding: entry(WINDING),
  rise: entry('equipment.motor.temperature_rise'),
  intake: value('intake.temperature'),
  frequency: value('motor.frequency'),
  current: value('motor.current'),
  windingTemperature: value('motor.winding_temperature'),
};
type Machine = Seen<typeof MACHINE>;

/** √3·I·R of the winding at a temperature, V line to line. */
function windingDrop(machine: Machine, current: number, temperature: number): number {
  return ROOT3 * current * (machine.winding / 2) * temperatureFactor(temperature);
}

/** Emf at rated frequency, V line to line: what is left of the voltage in phase with the current. */
function ratedEmf(machine: Machine): number {
  const drop = windingDrop(machine, machine.ratedCurrent, machine.intake + machine.rise);
  return machine.ratedVoltage * machine.ratedFactor - drop;
}

interface TerminalVoltage {
  readonly inPhase: number;
  readonly across: number;
}

/** Terminal voltage with the current in phase with the emf. No such voltage if the nameplate leaves no emf. */
function magnetVoltage(machine: Machine): TerminalVoltage {
  const emf = ratedEmf(machine);
  const speed = machine.frequency / machine.ratedFrequency;
  const reactive = machine.ratedVoltage * Math.sqrt(1 - machine.ratedFactor ** 2);
  const drop = windingDrop(machine, machine.current, machine.windingTemperature);
  return {
    inPhase: emf > 0 ? emf * speed + drop : Number.NaN,
    across: (reactive * machine.current * speed) / machine.ratedCurrent,
  };
}

function magnitude({ inPhase, across }: TerminalVoltage): number {
  return Math.hypot(inPhase, across);
}

/** Power factor of an induction machine at part load; at most 1, which rounding at high loads could pass. */
function inductionFactor(ratedFactor: number, share: number, load: number): number {
  return Math.min(1, (ratedFactor * load) / Math.sqrt(share ** 2 + (1 - share ** 2) * load ** 2));
}

const PHASOR = 'synchronous machine, phasor diagram with the current in phase with the emf, any machines text';
const NO_EMF = 'the nameplate leaves no emf: power factor, resistance or current are not of one machine';
const ASSUMED =
  'voltage in proportion to frequency and the nameplate’s power factor: the winding resistance is not given';

const NAMEPLATE_ONLY = {
  ratedVoltage: entry('equipment.motor.voltage'),
  ratedFrequency: entry('equipment.motor.frequency'),
  frequency: value('motor.frequency'),
};

export const MOTOR_VOLTAGES: readonly ValueDeclaration[] = [
  valueBy('motor.voltage', 'voltage that the motor needs at its terminals', 'voltage', [
    method({
      when: [PERMANENT_MAGNET, present(WINDING)],
      formula: '|(E_r·f/f_r + √3·I·R(T_w)) + j·√3·I·X_r·f/f_r|, E_r = V_r·pf_r − √3·I_r·R(T_r)',
      source: PHASOR,
      inputs: MACHINE,
      without: NO_EMF,
      compute: (machine) => magnitude(magnetVoltage(machine)),
    }),
    method({
      when: [INDUCTION, present(WINDING)],
      formula: 'V_r·f/f_r + √3·I·R(T_w)·pf·(1 − f/f_r)',
      source: 'constant volts per hertz with the winding drop made good (common practice, no source)',
      inputs: { ...MACHINE, factor: value('motor.power_factor') },
      compute: ({ factor, ...machine }) => {
        const speed = machine.frequency / machine.ratedFrequency;
        const drop = windingDrop(machine, machine.current, machine.windingTemperature);
        return machine.ratedVoltage * speed + drop * factor * (1 - speed);
      },
    }),
    method({
      when: [absent(WINDING)],
      formula: 'V_r·f/f_r',
      source: 'constant volts per hertz (common practice, no source)',
      inputs: NAMEPLATE_ONLY,
      assumes: ASSUMED,
      compute: ({ ratedVoltage, ratedFrequency, frequency }) => (ratedVoltage * frequency) / ratedFrequency,
    }),
  ]),
  valueBy('motor.power_factor', 'power factor at the motor', 'plain', [
    method({
      when: [PERMANENT_MAGNET, present(WINDING)],
      formula: 'Re(V_m)/|V_m|',
      source: PHASOR,
      inputs: MACHINE,
      without: NO_EMF,
      compute: (machine) => {
        const terminal = magnetVoltage(machine);
        // Rounding must not carry the quotient past 1, where the phase angle has no cosine.
        return Math.min(1, terminal.inPhase / magnitude(terminal));
      },
    }),
    method({
      when: [INDUCTION, present(WINDING)],
      formula: 'pf_r·load/√(i_0² + (1 − i_0²)·load²)',
      source: 'load current over current, any machines text',
      inputs: {
        ratedFactor: entry('equipment.motor.power_factor'),
        share: value('motor.magnetising_share'),
        load: value('motor.load'),
      },
      compute: ({ ratedFactor, share, load }) => inductionFactor(ratedFactor, share, load),
    }),
    method({
      when: [absent(WINDING)],
      formula: 'nameplate',
      source: 'the entry itself',
      inputs: { ratedFactor: entry('equipment.motor.power_factor') },
      assumes: ASSUMED,
      compute: ({ ratedFactor }) => ratedFactor,
    }),
  ]),
  valueBy('motor.standstill_voltage', 'voltage at standstill at the current of the case', 'voltage', [
    method({
      when: [PERMANENT_MAGNET, present(WINDING)],
      formula: '√3·I·R(T_w)',
      source: PHASOR,
      inputs: MACHINE,
      compute: (machine) => windingDrop(machine, machine.current, machine.windingTemperature),
    }),
    method({
      when: [INDUCTION, present(WINDING)],
      formula: '√3·I·R(T_w)·pf',
      source: 'the same model at no frequency',
      inputs: { ...MACHINE, factor: value('motor.power_factor') },
      compute: ({ factor, ...machine }) => windingDrop(machine, machine.current, machine.windingTemperature) * factor,
    }),
    method({
      when: [absent(WINDING)],
      formula: '0',
      source: 'the same model at no frequency',
      inputs: {},
      assumes: ASSUMED,
      compute: () => 0,
    }),
  ]),
  valueBy('motor.standstill_power_factor', 'power factor at standstill', 'plain', [
    method({
      when: [PERMANENT_MAGNET, present(WINDING)],
      formula: '1',
      source: 'only resistance is left',
      inputs: {},
      compute: () => 1,
    }),
    method({
      formula: 'as running',
      source: 'the same model at no frequency',
      inputs: { factor: value('motor.power_factor') },
      compute: ({ factor }) => factor,
    }),
  ]),
];
