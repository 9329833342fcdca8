import {
  buildChecklist,
  type CheckedFile,
  type Checklist,
  Repository,
  type Step,
  type UnitChoice,
} from '../../../server/src/engine/index.ts';

/** A small repository, invented from end to end; each test changes what it is about. */
export const PROJECT = {
  'wells/t2-07.yaml': `document: installation/1
site: { field: Alder, pad: T2, well: T2-07, elevation: 340 m, ambient: { min: -25 degC, max: 38 degC }, hazardous_area: zone 2 }
revision: { number: B, date: 2026-03-14, prepared_by: drafting engineer, checked_by: reviewing engineer }
conventions: { pressure: gauge }
supply: { source: grid, voltage: 400 V, frequency: 50 Hz, tolerance: 10 % }
well:
  intake: { md: 1420 m, tvd: 1395 m }
  perforations: { md: 1506 m, tvd: 1480 m }
  casing: { inner_diameter: 124.3 mm, drift: 121.1 mm }
  tubing: { outer_diameter: 73 mm, inner_diameter: 62 mm, roughness: 0.045 mm, pressure_rating: 480 bar, check_valve: yes }
  wellhead: { tubing_pressure: 12 bar, casing_pressure: 4 bar, flowing_temperature: 24 degC, pressure_rating: 210 bar }
  surface_temperature: 6 degC
reservoir: { pressure: 78 bar, temperature: 58 degC, bubble_point: 34 bar, productivity_index: 0.18 m3/d/bar }
fluid: { oil_gravity: 30 degAPI, water_cut: 40 %, water_density: 1060 kg/m3, gas_oil_ratio: 18 m3/m3, gas_gravity: 0.72, viscosity: 12 cP, h2s: 40 ppm }
lift: linear
equipment:
  pump: { datasheet: ../eq/pump.yaml, serial: PL-1183 }
  motor: { datasheet: ../eq/motor.yaml, serial: LM-0472 }
  gauge: { datasheet: ../eq/gauge.yaml, serial: G-2210, below_intake: 6 m }
  cable:
    main: { datasheet: ../eq/cable.yaml, length: 1440 m }
    motor_lead: { datasheet: ../eq/lead.yaml, length: 12 m }
  transformer: { datasheet: ../eq/tx.yaml, serial: TX-88 }
  drive: { datasheet: ../eq/drive.yaml, serial: DR-15 }
  handling: { sling: { rated_load: 4000 kg }, elevators: [ { item: motor, bore: 110 mm } ] }
operation:
  target_rate: 8 m3/d
  stroke: { rate: 5.6 /min, length: 1.2 m, up_fraction: 50 %, dwell: 0 s }
  cases:
    - { name: start on kill fluid, fluid_density: 1180 kg/m3, intake: static, stroke_rate: 2 /min, cable: cold }
    - { name: target, intake: flowing }
    - { name: pumped off, intake: trip }
setpoints:
  transformer: { tap: 6, voltage: 1200 V }
  drive: { base_frequency: 10 Hz, min_frequency: 0.8 Hz, max_frequency: 8 Hz, ramp_up: 20 s, ramp_down: 20 s, voltage_mode: trimmed, boost: 0 V }
  protection:
    overload: { trip: 15 A, delay: 30 s }
    short_circuit: { trip: 25 A, delay: 0 s }
    intake_pressure_low: { trip: 12 bar, alarm: 15 bar, reset: 20 bar, delay: 60 s }
    earth_fault: { trip: 0.1 Mohm, alarm: 1 Mohm, delay: 1 s }
  start: { override: 20 h, applies: first }
  restart: { mode: automatic, delay: 2 h, attempts: 3, window: 24 h, after: [underload, intake_pressure_low] }
`,
  'eq/pump.yaml': `document: pump/1
name: plunger 38
mass: 210 kg
outer_diameter: 95 mm
plunger_diameter: 38 mm
stroke_max: 1.5 m
acting: single
volumetric_efficiency: 88 %
friction_force: 1.5 kN
min_intake_pressure: 2 bar
connections:
  - { name: discharge head, joins: pump to tubing, torque: { min: 1700 N.m, max: 2100 N.m }, wrench: tubing tongs }
inspection: [ { test: free movement, instrument: spring balance 2 kN, limit: { max: 1.2 kN } } ]
`,
  'eq/motor.yaml': `document: motor/1
name: linear 20
mass: 420 kg
outer_diameter: 108 mm
type: linear_permanent_magnet
voltage: 320 V
current: 16 A
frequency: 4 Hz
power_factor: 0.85
thrust: 20 kN
speed: 0.36 m/s
pole_pitch: 45 mm
phase_resistance: 6 ohm
temperature_rise: 35 K
voltage_class: 3 kV
connections:
  - { name: head flange, joins: pump to motor, torque: { min: 48 N.m, max: 52 N.m }, fastener: 8 x M10 x 35, wrench: "17 mm, 12-point socket", seal: 2 O-rings 78 x 3.5, fill: "motor oil, 0.6 l" }
inspection:
  - { test: insulation, instrument: insulation tester 1000 V, test_voltage: 1000 V, duration: 1 min, limit: { min: 200 Mohm } }
  - { test: winding resistance, instrument: micro-ohmmeter, limit: { unbalance_max: 2 % } }
cautions: [ Do not roll the motor. ]
`,
  'eq/gauge.yaml': `document: gauge/1
name: pt basic
measures: { intake_pressure: { min: 0 bar, max: 250 bar, accuracy: 0.5 bar }, motor_temperature: { min: 0 degC, max: 150 degC, accuracy: 1 K } }
signal: star_point
test_voltage_max: 1000 V
`,
  'eq/cable.yaml': `document: cable/1
name: flat 16
mass: 2900 kg
conductor: 16 mm2
voltage_class: 3 kV
ampacity: { current: 60 A, conductor_rise: 40 K }
insulation_resistance_length: 500 Mohm.km
handling_temperature_min: -10 degC
min_bend_radius: 600 mm
`,
  'eq/lead.yaml': `document: cable/1
name: lead
conductor: 10 mm2
voltage_class: 3 kV
ampacity: { current: 60 A, conductor_rise: 40 K }
`,
  'eq/tx.yaml': `document: transformer/1
name: tx
power: 40 kVA
frequency: 5 Hz
primary_voltage: 400 V
impedance: 4 %
load_loss: 700 W
star_point: accessible
secondary_connection: wye
taps: [ { tap: 1, voltage: 900 V }, { tap: 6, voltage: 1200 V } ]
`,
  'eq/drive.yaml': `document: drive/1
name: dr
output_voltage: 400 V
output_current: 90 A
input_voltage: 400 V
output_filter: sine
`,
} as const;
export type ProjectFile = keyof typeof PROJECT;

/** A change of one file: every pair's first text gives way to the second. */
export type Changes = Partial<Record<ProjectFile, readonly (readonly [from: string, to: string])[]>>;

/** The well of the project, checked after changes; a change that finds nothing to change is a mistake of the test. */
export function checkProject(changes: Changes = {}, policy?: string): CheckedFile {
  const files = Object.entries(PROJECT).map(([path, text]) => ({
    path: `/p/${path}`,
    text: (changes[path as ProjectFile] ?? []).reduce(replaceOnce, text as string),
  }));
  const own = policy === undefined ? [] : [{ path: '/p/setproof.policy.yaml', text: policy }];
  let repository = Repository.empty({ root: '/p', today: '2026-03-20' }).update([...files, ...own]);
  repository = repository.update(repository.wanted().map((path) => ({ path, absent: true as const })));
  const checked = repository.check('/p/wells/t2-07.yaml');
  if (checked === undefined) throw new Error('the well of the project is not known');
  return checked;
}

function replaceOnce(text: string, [from, to]: readonly [string, string]): string {
  if (!text.includes(from)) throw new Error(`'${from}' is not in the project`);
  return text.replace(from, to);
}

export function checklistOf(changes: Changes = {}, units: UnitChoice = 'as-written', policy?: string): Checklist {
  return buildChecklist(checkProject(changes, policy), { units });
}

export function stepsOf(checklist: Checklist): readonly Step[] {
  return checklist.stages.flatMap(({ steps }) => steps);
}

export function stepNamed(checklist: Checklist, id: string): Step {
  const found = stepsOf(checklist).find((each) => each.id === id);
  if (found === undefined) throw new Error(`there is no step '${id}'`);
  return found;
}

const WELL = 'wells/t2-07.yaml';

/** The same well with a rotary pump and an induction motor, started direct on line, without gas, zone or restart. */
export const PLAIN_ROTARY: Changes = {
  [WELL]: [
    ['lift: linear', 'lift: rotary'],
    ['  drive: { datasheet: ../eq/drive.yaml, serial: DR-15 }\n', ''],
    ['  gauge: { datasheet: ../eq/gauge.yaml, serial: G-2210, below_intake: 6 m }\n', ''],
    [', h2s: 40 ppm', ', h2s: 0 ppm'],
    [', hazardous_area: zone 2', ', hazardous_area: none'],
    ['mode: automatic', 'mode: manual'],
    ['  start: { override: 20 h, applies: first }\n', ''],
  ],
  'eq/motor.yaml': [['type: linear_permanent_magnet', 'type: induction']],
};
