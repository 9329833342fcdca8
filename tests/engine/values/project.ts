import { parseDocument } from 'yaml';
import { type CheckedFile, type Evaluation, Repository, type WindowReading } from '../../../server/src/engine/index.ts';

/** Files of an invented project by their path: one installation and the data sheets behind it. */
export type Project = Readonly<Record<string, string>>;

export const WELL = 'well.yaml';
const ROOT = '/invented';

/** New texts of entries, `file: dotted key` or, for the installation, the key alone; undefined takes the entry out. */
export type Edits = Readonly<Record<string, string | undefined>>;

export function edited(project: Project, edits: Edits): Project {
  const files: Record<string, string> = { ...project };
  for (const [place, text] of Object.entries(edits)) {
    const [, file = WELL, key = ''] = /^(?:(\S+\.yaml):\s)?(.*)$/.exec(place) ?? [];
    const document = parseDocument(files[file] ?? '');
    const steps = key.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
    if (text === undefined) document.deleteIn(steps);
    else document.setIn(steps, parseDocument(text).contents);
    files[file] = document.toString();
  }
  return files;
}

export function checked(project: Project): CheckedFile {
  const changes = Object.entries(project).map(([path, text]) => ({ path: `${ROOT}/${path}`, text }));
  const file = Repository.empty({ root: ROOT, today: '2026-11-25' }).update(changes).check(`${ROOT}/${WELL}`);
  if (file === undefined) throw new Error('the installation is not known');
  return file;
}

export function evaluate(project: Project, edits: Edits = {}): Evaluation {
  const { worked } = checked(edited(project, edits));
  if (worked === undefined) throw new Error('nothing was worked out');
  return worked.evaluation;
}

export function windowOf(project: Project, setpoint: string, edits: Edits = {}): WindowReading {
  const reading = checked(edited(project, edits)).worked?.windows.find(({ window }) => window.setpoint === setpoint);
  if (reading === undefined) throw new Error(`no window of ${setpoint}`);
  return reading;
}

/** A value in a case; undefined where it is not available. */
export function number(evaluation: Evaluation, id: string, caseIndex = 0): number | undefined {
  const node = evaluation.network.byId.get(id);
  if (node === undefined) throw new Error(`no value is declared as '${id}'`);
  return evaluation.numberOf(node, caseIndex);
}

/**
 * Chosen so that a value can be worked out by hand: water of 1000 kg/m3, pressures absolute, one temperature of 20 degC
 * everywhere and cables that hardly warm (1 K at 1000 A), so that every resistance is as on its sheet; tubing so wide that
 * its friction is nothing beside the lift; intake at the perforations.
 */
const SITE = `
document: installation/1
site: { well: T-1 }
conventions: { pressure: absolute }
supply: { source: grid, voltage: 400 V, frequency: 50 Hz, tolerance: 10 % }
well:
  intake: { md: 1000 m, tvd: 1000 m }
  perforations: { md: 1000 m, tvd: 1000 m }
  casing: { inner_diameter: 160 mm, drift: 155 mm }
  tubing: { outer_diameter: 73 mm, inner_diameter: 280 mm, check_valve: yes }
  wellhead: { tubing_pressure: 10 bar, casing_pressure: 4 bar, flowing_temperature: 20 degC }
  surface_temperature: 20 degC
reservoir: { pressure: 80 bar, temperature: 20 degC, bubble_point: 5 bar, productivity_index: 2 m3/d/bar }
fluid: { oil_gravity: 30 degAPI, water_cut: 100 %, water_density: 1000 kg/m3, viscosity: 1 cP }
`;

const SETPOINTS = `
  drive: { base_frequency: 50 Hz, min_frequency: 1 Hz, max_frequency: 60 Hz, voltage_mode: trimmed }
  protection:
    overload: { trip: 10 A, delay: 20 s }
    underload: { trip: 2 A, delay: 60 s }
    short_circuit: { trip: 20 A, delay: 0 s }
    overvoltage: { trip: 460 V, delay: 5 s }
    undervoltage: { trip: 340 V, delay: 5 s }
    voltage_unbalance: { trip: 4 %, delay: 10 s }
    current_unbalance: { trip: 15 %, delay: 10 s }
    intake_pressure_low: { trip: 20 bar, alarm: 25 bar, reset: 40 bar, delay: 60 s }
    motor_temperature_high: { trip: 120 degC, delay: 20 s }
  start: { override: 12 h, applies: first }
  restart: { mode: automatic, delay: 2 h, attempts: 3, window: 24 h, after: [underload] }
`;

const SHEETS: Project = {
  'cable.yaml': `
document: cable/1
name: invented cable
mass: 900 kg
resistance_20: 1 ohm/km
inductance: 0.4 mH/km
voltage_class: 3 kV
ampacity: { current: 1000 A, conductor_rise: 1 K }
shape: flat
thickness: 12 mm
width: 30 mm
`,
  'lead.yaml': `
document: cable/1
name: invented lead
mass: 20 kg
resistance_20: 2 ohm/km
inductance: 0.4 mH/km
voltage_class: 3 kV
ampacity: { current: 1000 A, conductor_rise: 1 K }
shape: round
outer_diameter: 10 mm
`,
  'transformer.yaml': `
document: transformer/1
name: invented transformer
mass: 300 kg
power: 40 kVA
frequency: 5 Hz
primary_voltage: 400 V
impedance: 5 %
load_loss: 1200 W
taps: [ { tap: 1, voltage: 800 V }, { tap: 2, voltage: 1000 V } ]
`,
  'drive.yaml': `
document: drive/1
name: invented drive
mass: 120 kg
output_voltage: 400 V
output_current: 50 A
input_voltage: 400 V
frequency_range: { min: 0.5 Hz, max: 120 Hz }
overload: { ratio: 150 %, duration: 60 s }
ambient_max: 40 degC
derating: { ambient: 1 %/K, altitude: 1 %/100 m, above: 1000 m }
`,
  'gauge.yaml': `
document: gauge/1
name: invented gauge
mass: 15 kg
outer_diameter: 95 mm
measures:
  intake_pressure: { min: 0 bar, max: 250 bar, accuracy: 0.5 bar }
  motor_temperature: { min: 0 degC, max: 200 degC, accuracy: 1 K }
`,
};

const EQUIPMENT = `
  pump: { datasheet: pump.yaml }
  motor: { datasheet: motor.yaml }
  gauge: { datasheet: gauge.yaml, below_intake: 5 m }
  cable:
    main: { datasheet: cable.yaml, length: 1000 m }
    motor_lead: { datasheet: lead.yaml, length: 10 m }
  transformer: { datasheet: transformer.yaml }
  drive: { datasheet: drive.yaml }
  handling: { sling: { rated_load: 2000 kg } }
`;

export const LINEAR: Project = {
  ...SHEETS,
  'pump.yaml': `
document: pump/1
name: invented plunger pump
mass: 140 kg
outer_diameter: 90 mm
length: 6 m
plunger_diameter: 50 mm
stroke_max: 1.5 m
stroke_rate_max: 10 /min
acting: single
volumetric_efficiency: 0.9
friction_force: 1 kN
min_intake_pressure: 2 bar
free_gas_max: 30 %
`,
  'motor.yaml': `
document: motor/1
name: invented linear motor
type: linear_permanent_magnet
mass: 230 kg
outer_diameter: 108 mm
length: 5 m
voltage: 320 V
current: 16 A
frequency: 4 Hz
power_factor: 0.85
efficiency: 0.6
thrust: 20 kN
speed: 0.4 m/s
pole_pitch: 50 mm
phase_resistance: 6 ohm
insulation_temperature: 180 degC
temperature_rise: 1 K
voltage_class: 2 kV
`,
  [WELL]: `${SITE}
lift: linear
equipment:${EQUIPMENT}
operation:
  target_rate: 15 m3/d
  stroke: { rate: 5 /min, length: 1.2 m, up_fraction: 50 %, dwell: 0 s }
  cases:
    - { name: start, intake: static }
    - { name: target, intake: flowing }
    - { name: pumped off, intake: trip }
setpoints:
  transformer: { tap: 2, voltage: 1000 V }${SETPOINTS}`,
};

export const ROTARY: Project = {
  ...SHEETS,
  'transformer.yaml': (SHEETS['transformer.yaml'] ?? '').replace('frequency: 5 Hz', 'frequency: 50 Hz'),
  'pump.yaml': `
document: pump/1
name: invented stages
mass: 160 kg
outer_diameter: 100 mm
length: 7 m
stages: 100
curve:
  frequency: 50 Hz
  speed: 3000 rpm
  density: 1000 kg/m3
  points:
    - { rate: 0 m3/d,   head: 10 m, power: 0.06 kW }
    - { rate: 50 m3/d,  head: 8 m,  power: 0.1 kW }
    - { rate: 100 m3/d, head: 4 m,  power: 0.12 kW }
recommended_rate: { min: 30 m3/d, max: 80 m3/d }
shaft_power_max: 40 kW
free_gas_max: 20 %
pressure_max: 250 bar
`,
  'motor.yaml': `
document: motor/1
name: invented induction motor
type: induction
mass: 300 kg
outer_diameter: 114 mm
length: 6 m
voltage: 800 V
current: 20 A
frequency: 50 Hz
power_factor: 0.85
efficiency: 0.85
power: 20 kW
no_load_current: 6 A
phase_resistance: 1 ohm
insulation_temperature: 180 degC
temperature_rise: 1 K
locked_rotor_current: 100 A
locked_rotor_power_factor: 0.4
max_frequency: 65 Hz
voltage_class: 3 kV
`,
  [WELL]: `${SITE}
lift: rotary
equipment:${EQUIPMENT}
operation:
  target_rate: 50 m3/d
  frequency: 50 Hz
  cases:
    - { name: at a point of the curve, intake_pressure: 29.6133 bar }
    - { name: target, intake: flowing }
    - { name: start, intake: static, frequency: 40 Hz }
setpoints:
  transformer: { tap: 2, voltage: 1000 V }${SETPOINTS.replace('min_frequency: 1 Hz', 'min_frequency: 40 Hz')}`,
};
