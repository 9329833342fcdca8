import { describe, expect, it } from 'vitest';
import { rotaryLines } from '../../server/src/engine/values/pump/rotary-lines.ts';
import { type Edits, evaluate, LINEAR, number, type Project, ROTARY, windowOf } from '../engine/values/project.ts';
import { agree } from './row.ts';

// Values of the handbook worked out by hand from the entries of two invented wells (tests/engine/values/project.ts): the
// formula is written here anew, in the form in which its source has it, with the numbers of the entries in it.
// Water of 1000 kg/m3, 20 degC everywhere, intake and perforations at 1000 m, 10 bar on the tubing, 4 bar on the casing,
// reservoir at 80 bar with 2 m3/d/bar.

const BAR = 1e5;
const DAY = 86_400;
/** ISO 80000-3. */
const G = 9.80665;
const ROOT3 = Math.sqrt(3);
const circle = (diameter: number) => (Math.PI * diameter * diameter) / 4;

/** API MPMS chapter 11, from memory: 141.5/(131.5 + API) times water at 60 degF. */
const OIL_30_API = (141.5 / 161.5) * 999.016;

function of(project: Project, id: string, edits: Edits = {}, caseIndex = 0): () => number {
  return () => number(evaluate(project, edits), id, caseIndex) ?? Number.NaN;
}

const linear = (id: string, edits: Edits = {}) => of(LINEAR, id, edits);

// The linear unit stands on 80 bar: it lifts (10 + 98.0665 − 80) bar on 50 mm, with 1 kN of friction; 16 A at 20 kN.
const PLUNGER = circle(0.05);
const DIFFERENCE = 28.0665 * BAR;
const LOAD = PLUNGER * DIFFERENCE + 1000;
const CURRENT = (16 * LOAD) / 20_000;
const RMS = Math.sqrt((CURRENT ** 2 + 0.8 ** 2) / 2);
/** 1.2 m, 5 a minute, 90 %. */
const RATE = (PLUNGER * 1.2 * 5 * 0.9) / 60;

describe('hydrostatics and inflow', () => {
  const statics = 'ρ·g·h, D';
  agree([
    {
      what: 'static pressure 200 m above the perforations, Pa',
      actual: linear('intake.static_pressure', { 'well.perforations.md': '1200 m', 'well.perforations.tvd': '1200 m' }),
      expected: 80 * BAR - 1000 * G * 200,
      source: statics,
    },
    {
      what: 'full column, Pa',
      actual: linear('intake.full_column_pressure'),
      expected: 102.0665 * BAR,
      source: statics,
    },
    {
      what: 'submergence in oil of 30 degAPI when the trip of 20 bar acts, m',
      actual: linear('intake.trip_submergence'),
      expected: (16 * BAR) / (OIL_30_API * G),
      source: statics,
    },
    {
      what: 'density at 40 % water, kg/m3',
      actual: linear('fluid.liquid_density', { 'fluid.water_cut': '40 %' }),
      expected: 0.6 * OIL_30_API + 0.4 * 1000,
      source: 'mixture by volume, D',
    },
    {
      what: 'flowing pressure at 15 m3/d, Pa',
      actual: linear('intake.flowing_pressure'),
      expected: (80 - 15 / 2) * BAR,
      source: 'straight line above the bubble point, D',
    },
    {
      what: 'temperature half way down to 100 degC, degC',
      actual: linear('intake.temperature', {
        'reservoir.temperature': '100 degC',
        'well.intake.md': '500 m',
        'well.intake.tvd': '500 m',
      }),
      expected: 60,
      source: 'straight line in vertical depth, D',
    },
    {
      what: 'hydraulic power, W',
      actual: linear('lift.hydraulic_power'),
      expected: RATE * DIFFERENCE,
      source: 'Q·Δp, D',
    },
  ]);
});

describe('times', () => {
  const level = 1000 - (76 * BAR) / (1000 * G);
  agree([
    {
      what: 'filling 280 mm tubing from the level at rest, s',
      actual: linear('start.fill_time'),
      expected: (level * circle(0.28)) / RATE,
      source: 'volume balance, D',
    },
    {
      what: 'refill of the annulus from 20 to 40 bar, s',
      actual: linear('restart.refill_time'),
      // ∫ dp/(80 bar − p) has a closed form.
      expected: (((circle(0.16) - circle(0.073)) / (1000 * G)) * Math.log(60 / 40)) / (2 / DAY / BAR),
      source: 'straight-line inflow integrated by hand, D',
    },
  ]);
});

describe('plunger and motor', () => {
  agree([
    {
      what: 'force with 200 kg of moving parts, N',
      actual: linear('pump.load', { 'pump.yaml: moving_mass': '200 kg' }),
      expected: LOAD + 200 * G * (1 - 1000 / 7850),
      source: 'buoyancy of steel of 7850 kg/m3, common practice, no source',
    },
    {
      what: 'winding temperature at 40 K of rise, degC',
      actual: linear('motor.winding_temperature', { 'motor.yaml: temperature_rise': '40 K' }),
      expected: 20 + 40 * (RMS / 16) ** 2,
      source: 'heat with the square of the current, D',
    },
    {
      what: 'power of the nameplate, W',
      actual: linear('motor.nameplate_power'),
      expected: ROOT3 * 320 * 16 * 0.85 * 0.6,
      source: 'definition of efficiency, D',
    },
    {
      what: 'power that the nameplate states, W',
      actual: linear('motor.rated_power'),
      expected: 20_000 * 0.4,
      source: 'force × speed, D',
    },
    {
      what: 'velocity past the motor at 50 m3/d, m/s',
      actual: of(ROTARY, 'motor.cooling_velocity'),
      expected: 50 / DAY / (circle(0.16) - circle(0.114)),
      source: 'continuity, D',
    },
  ]);
});

describe('cable', () => {
  const rated = { 'cable.yaml: ampacity': '{ current: 10 A, conductor_rise: 50 K }' };
  const warmed = 20 + 50 * (CURRENT / 10) ** 2;
  agree([
    {
      what: 'mean temperature of the conductor, degC',
      actual: linear('cable.conductor_temperature', rated),
      expected: warmed,
      source: 'heat with the square of the current, D',
    },
    {
      what: 'hottest temperature of the conductor in a well of 100 degC, degC',
      actual: linear('cable.hottest_temperature', { ...rated, 'reservoir.temperature': '100 degC' }),
      expected: 80 + warmed,
      source: 'heat with the square of the current, D',
    },
    {
      what: 'resistance of the warm cable and the lead, ohm',
      actual: linear('cable.resistance', rated),
      expected: 1 + 0.00393 * (warmed - 20) + 0.02,
      source: 'IEC 60028: 0.00393 /K at 20 degC, M',
    },
    {
      what: 'reactance without a stated inductance, ohm',
      actual: linear('cable.reactance', { 'cable.yaml: inductance': undefined }),
      expected: 2 * Math.PI * 2 * (0.35e-6 * 1000 + 0.4e-6 * 10),
      source: '0.35 mH/km: common practice, no source',
    },
    { what: 'spare length, m', actual: linear('cable.length_margin'), expected: 10, source: 'geometry, D' },
  ]);
});

// 400 V/1000 V, 40 kVA at 5 Hz, 5 % with 3 % of loss; the unit runs at 2 Hz.
const TAP = 1000;
const NOMINAL = 40_000 / (ROOT3 * TAP);

/** Voltage of the motor in phase with its current and across it, at a share of its 4 Hz (synchronous machine, any text). */
function motorVoltage(share: number): readonly [inPhase: number, across: number] {
  const warm = 3 * (1 + 0.00393 * (RMS / 16) ** 2);
  const emf = 320 * 0.85 - ROOT3 * 16 * 3 * 1.00393;
  return [emf * share + ROOT3 * CURRENT * warm, 320 * Math.sqrt(1 - 0.85 ** 2) * share * (CURRENT / 16)];
}

/** Emf that the transformer must have at a tap and a frequency (circuit law). */
function emfAt(tap: number, frequency: number): number {
  const [inPhase, across] = motorVoltage(frequency / 4);
  const base = tap ** 2 / 40_000;
  const resistance = 1.02 + 0.03 * base;
  const reactance = 2 * Math.PI * frequency * 0.4e-6 * 1010 + (0.04 * base * frequency) / 5;
  return Math.hypot(inPhase + ROOT3 * CURRENT * resistance, across + ROOT3 * CURRENT * reactance);
}

/** IEC 60076-1 5.4.3, from memory: volts per hertz of 1.10 − 0.05·K. */
function mostOnCore(tap: number, frequency: number): number {
  const loading = Math.min(1, (CURRENT * ROOT3 * tap) / 40_000);
  return (1.1 - 0.05 * loading) * 400 * (frequency / 5);
}

describe('transformer and drive', () => {
  const iec = 'IEC 60076-1, M';
  const site = { 'site.elevation': '1500 m', 'site.ambient': '{ max: 45 degC }' };
  const fast: Edits = { 'operation.stroke.rate': '10 /min' };
  const core = mostOnCore(TAP, 2);
  agree([
    {
      what: 'tap for the drive’s 50 A, V',
      actual: linear('transformer.tap_limit_drive_current'),
      expected: (400 * 50) / CURRENT,
      source: 'turns ratio, D',
    },
    {
      what: 'tap for the winding’s current, V',
      actual: linear('transformer.tap_limit_winding_current'),
      expected: 40_000 / (ROOT3 * CURRENT),
      source: iec,
    },
    {
      what: 'tap for insulation of 2 kV, V',
      actual: linear('transformer.tap_limit_voltage_class'),
      expected: 2000,
      source: 'turns ratio, D',
    },
    { what: 'voltage that the core stands, V', actual: linear('drive.core_voltage'), expected: core, source: iec },
    {
      what: 'voltage that is there at 2 Hz, V',
      actual: linear('drive.available_voltage'),
      expected: core,
      source: iec,
    },
    {
      what: 'voltage that is there at 4 Hz, V',
      actual: linear('drive.available_voltage', fast),
      expected: Math.min(360, mostOnCore(TAP, 4)),
      source: iec,
    },
    {
      what: 'flux over rated',
      actual: linear('transformer.flux'),
      expected: (emfAt(TAP, 2) * 0.4) / 2 / (400 / 5),
      source: 'transformer equation, D',
    },
    {
      what: 'current over that of the tap',
      actual: linear('transformer.winding_loading'),
      expected: CURRENT / NOMINAL,
      source: iec,
    },
    {
      what: 'apparent power over the rating at 2 of 5 Hz',
      actual: linear('transformer.loading'),
      expected:
        (ROOT3 *
          CURRENT *
          Math.hypot(
            motorVoltage(0.5)[0] + ROOT3 * CURRENT * 1.02,
            motorVoltage(0.5)[1] + ROOT3 * CURRENT * 2 * Math.PI * 2 * 0.4e-6 * 1010,
          )) /
        (40_000 * 0.4),
      source: 'rated flux at rated frequency, D',
    },
    {
      what: 'current of the drive, A',
      actual: linear('drive.output_current'),
      expected: CURRENT * 2.5,
      source: 'turns ratio, D',
    },
    {
      what: 'what heat and altitude leave of the drive',
      actual: linear('drive.derating', site),
      expected: 0.95 * 0.95,
      source: 'data sheet: 1 %/K above 40 degC, 1 % per 100 m above 1000 m, D',
    },
    {
      what: 'highest output with 10 % on the supply and room in the rating, V',
      actual: linear('drive.highest_output', { 'drive.yaml: output_voltage': '480 V' }),
      expected: 440,
      source: 'supply + 10 %, D',
    },
    {
      what: 'lowest output of a drive of 380 V for 400 V, V',
      actual: linear('drive.lowest_output', { 'drive.yaml: output_voltage': '380 V' }),
      expected: 360 * 0.95,
      source: 'ratio of the ratings, D',
    },
  ]);

  it('needs the tap at which the emf is what drive and core give', () => {
    const tap = linear('transformer.tap_need')();
    const given = Math.min(360, mostOnCore(tap, 2));
    expect((emfAt(tap, 2) * 400) / tap / given).toBeCloseTo(1, 4);
  });

  it('follows down to the frequency at which the core is at its limit', () => {
    const lowest = linear('transformer.lowest_frequency')();
    expect(lowest).toBeGreaterThan(0);
    expect((emfAt(TAP, lowest) * 0.4) / mostOnCore(TAP, lowest)).toBeCloseTo(1, 4);
  });
});

describe('where an entry is absent', () => {
  const plain: Edits = { 'motor.yaml: phase_resistance': undefined };
  const hot: Edits = { 'reservoir.temperature': '100 degC' };
  agree([
    {
      what: 'lead without a stated inductance, ohm',
      actual: linear('cable.reactance', { 'lead.yaml: inductance': undefined }),
      expected: 2 * Math.PI * 2 * (0.4e-6 * 1000 + 0.35e-6 * 10),
      source: '0.35 mH/km: common practice, no source',
    },
    {
      what: 'resistance of no lead, ohm',
      actual: linear('cable.lead_resistance', { 'equipment.cable.motor_lead': undefined }),
      expected: 0,
      source: 'D',
    },
    {
      what: 'cable between 20 and 100 degC without a survey, degC',
      actual: linear('cable.conductor_temperature', hot),
      expected: 60 + (CURRENT / 1000) ** 2,
      source: 'straight line, D',
    },
    {
      what: 'cable and lead at rest between 20 and 100 degC, ohm',
      actual: linear('cable.static_resistance', hot),
      expected: 1 + 0.00393 * 40 + 0.02 * (1 + 0.00393 * 80),
      source: 'IEC 60028, M',
    },
    {
      what: 'cable at rest without a lead, ohm',
      actual: linear('cable.static_resistance', { 'equipment.cable.motor_lead': undefined }),
      expected: 1,
      source: 'D',
    },
    {
      what: 'drive without an input rating at 400 V less 10 %, V',
      actual: linear('drive.lowest_output', { 'drive.yaml: input_voltage': undefined }),
      expected: 360,
      source: 'D',
    },
    {
      what: 'drive without a highest ambient temperature at 45 degC',
      actual: linear('drive.derating', { 'drive.yaml: ambient_max': undefined, 'site.ambient': '{ max: 45 degC }' }),
      expected: 1,
      source: 'D',
    },
    {
      what: 'most current without a transformer, A',
      actual: linear('drive.current_limit_at_motor', { 'equipment.transformer': undefined }),
      expected: 75,
      source: 'rating × overload ratio, D',
    },
    {
      what: 'voltage of a motor without a winding resistance at half frequency, V',
      actual: linear('motor.voltage', plain),
      expected: 160,
      source: 'constant volts per hertz: common practice, no source',
    },
    {
      what: 'its voltage at standstill, V',
      actual: linear('motor.standstill_voltage', plain),
      expected: 0,
      source: 'D',
    },
    {
      what: 'volume factor of a liquid without described gas',
      actual: linear('fluid.volume_factor'),
      expected: 1,
      source: 'water is incompressible, D',
    },
    {
      what: 'intake pressure at which the well gives what the plunger takes, Pa',
      actual: of(LINEAR, 'intake.pressure', {}, 1),
      expected: 80 * BAR - (RATE * DAY * BAR) / 2,
      source: 'straight-line inflow, D',
    },
    {
      what: 'clearance of tubing with flat cable, no lead beside the pump, m',
      actual: linear('fit.clearance', {
        'motor.yaml: outer_diameter': '80 mm',
        'pump.yaml: outer_diameter': '80 mm',
        'equipment.cable.motor_lead': undefined,
      }),
      expected: 0.155 - 0.073 - 0.012,
      source: 'geometry, D',
    },
    {
      what: 'filling a hole twice as long as it is deep, s',
      actual: linear('start.fill_time', { 'well.intake.md': '2000 m' }),
      expected: (2 * (1000 - (76 * BAR) / (1000 * G)) * circle(0.28)) / RATE,
      source: 'volume balance, D',
    },
    {
      what: 'tap with something to spare, V',
      actual: () => linear('transformer.tap_comfortable')() / linear('transformer.tap_min')(),
      expected: 1.02,
      source: '2 %: common practice, no source',
    },
  ]);
});

describe('protections', () => {
  agree([
    {
      what: 'side of a protection at the drive',
      actual: linear('overload.side_ratio', { 'setpoints.protection.overload.side': 'drive' }),
      expected: 2.5,
      source: 'turns ratio, D',
    },
    {
      what: 'the same without a transformer',
      actual: linear('overload.side_ratio', {
        'setpoints.protection.overload.side': 'drive',
        'equipment.transformer': undefined,
      }),
      expected: 1,
      source: 'D',
    },
    {
      what: 'double-acting pump with 20 mm of rod against a closed valve, 10 A of 16 A, Pa',
      actual: linear('pump.closed_valve_pressure', {
        'pump.yaml: acting': 'double',
        'pump.yaml: rod_diameter': '20 mm',
      }),
      expected: 80 * BAR + (20_000 * (10 / 16) - 1000) / (circle(0.05) - circle(0.02)),
      source: 'forces on the plunger, D',
    },
  ]);
});

describe('shaft and curve', () => {
  const magnet = (frequency: number): Edits => ({
    'motor.yaml: type': 'permanent_magnet',
    'motor.yaml: frequency': `${frequency} Hz`,
    'operation.frequency': `${frequency} Hz`,
  });
  agree([
    ...[41, 61].map((frequency) => ({
      what: `speed of a permanent-magnet motor of ${frequency} Hz on a curve of 50 Hz`,
      actual: of(ROTARY, 'pump.no_load_speed_ratio', magnet(frequency)),
      expected: frequency / 50,
      source: 'affinity laws, D',
    })),
    {
      what: 'frequency that holds half a metre, Hz',
      actual: of(ROTARY, 'pump.no_flow_frequency', { 'reservoir.pressure': `${108.0665 - 0.5 * 0.0980665} bar` }),
      expected: 50 * Math.sqrt(0.5 / 1000),
      source: 'affinity laws, D',
    },
    {
      what: 'frequency that holds a well which flows by itself, Hz',
      actual: of(ROTARY, 'pump.no_flow_frequency', { 'reservoir.pressure': '120 bar' }),
      expected: 0,
      source: 'D',
    },
  ]);

  it('draws the pump’s line to the end of its curve at the speed with slip', () => {
    const slipping = evaluate(ROTARY, { 'motor.yaml: poles': '2', 'motor.yaml: speed': '2900 rpm' });
    const lines = rotaryLines(slipping, 0);
    if ('missing' in lines) throw new Error(`missing ${lines.missing.join()}`);
    expect(lines.maxRate * DAY).toBeCloseTo((100 * 2900) / 3000, 4);
    const unit = rotaryLines(evaluate(ROTARY), 0);
    if ('missing' in unit) throw new Error(`missing ${unit.missing.join()}`);
    expect(unit.pumpHead(unit.maxRate)).toBeCloseTo(400, 3);
  });
});

describe('volts per hertz with a boost of 20 V', () => {
  const boosted: Edits = {
    'setpoints.drive.voltage_mode': 'volts_per_hertz',
    'setpoints.drive.base_frequency': '60 Hz',
    'setpoints.drive.boost': '20 V',
  };
  const current = 20 * Math.sqrt(0.09 + 0.91 * 0.25);
  const factor = (0.85 * 0.5 * 20) / current;

  /** The emf behind transformer and cable that leaves a voltage at the motor, at 50 Hz. */
  function sent(terminal: number, tap: number): number {
    const resistance = 1.02 + (0.03 * tap ** 2) / 40_000;
    const reactance = 2 * Math.PI * 50 * 0.4e-6 * 1010 + (0.04 * tap ** 2) / 40_000;
    const along = terminal * factor + ROOT3 * current * resistance;
    const across = terminal * Math.sqrt(1 - factor ** 2) + ROOT3 * current * reactance;
    return Math.hypot(along, across);
  }

  it('adds the boost to what the line gives', () => {
    const terminal = of(ROTARY, 'motor.terminal_voltage', boosted)();
    expect(sent(terminal, TAP) / (((400 * 50) / 60 + 20) * 2.5)).toBeCloseTo(1, 5);
  });

  it('limits the tap by 1.10 of the motor’s voltage', () => {
    const tap = of(ROTARY, 'transformer.tap_limit_light_load', boosted)();
    expect((sent(1.1 * 800, tap) * 400) / tap / ((400 * 50) / 60 + 20)).toBeCloseTo(1, 5);
  });

  it('has its base frequency within 20 % and 40 % of what the nameplate asks, at best where the line still serves', () => {
    const one = { ...boosted, 'operation.cases': '[{ name: a, intake_pressure: 29.6133 bar }]' };
    const { ends, recommended } = windowOf(ROTARY, 'setpoints.drive.base_frequency', one);
    expect([ends.hardLower, ends.lower, ends.upper, ends.hardUpper]).toEqual(
      [0.6, 0.8, 1.2, 1.4].map((share) => expect.closeTo(62.5 * share, 6)),
    );
    const serves = (400 * 50) / (sent(800, TAP) * 0.4 - 20);
    expect(recommended).toBeCloseTo(Number(serves.toPrecision(3)), 6);
  });
});

it('follows to almost nothing where there is almost no resistance', () => {
  const edits: Edits = {
    'motor.yaml: phase_resistance': '0.02 ohm',
    'cable.yaml: resistance_20': '0.01 ohm/km',
    'lead.yaml: resistance_20': '0.01 ohm/km',
    'transformer.yaml: load_loss': '10 W',
  };
  // In phase √3·I·R at standstill, and of the emf 272 V at 4 Hz; the core stands 1.10 − 0.05·K of 80 V for each hertz.
  const drop = ROOT3 * CURRENT * (0.01 + 0.0101 + 10 / 40_000 / 0.04);
  const perHertz = mostOnCore(TAP, 1) - (320 * 0.85 * 0.4) / 4;
  expect(linear('transformer.lowest_frequency', edits)() / ((drop * 0.4) / perHertz)).toBeCloseTo(1, 1);
});

it('has on a volts-per-hertz line what the frequency leaves', () => {
  const edits = { 'setpoints.drive.voltage_mode': 'volts_per_hertz', 'setpoints.drive.base_frequency': '60 Hz' };
  expect(of(ROTARY, 'drive.supply_voltage', edits)()).toBeCloseTo((400 * 50) / 60, 6);
});

describe('the highest frequency on a volts-per-hertz line', () => {
  const reached = (base: string) =>
    of(
      LINEAR,
      'transformer.highest_frequency',
      { 'setpoints.drive.voltage_mode': 'volts_per_hertz', 'setpoints.drive.base_frequency': base },
      1,
    )();

  it('is four times that of the case where the line gives more at each', () => {
    // 80 V for each hertz: 160 V at 2 Hz, where some 80 V are needed.
    expect(reached('5 Hz')).toBeCloseTo(8, 6);
  });

  it('is none where the line does not serve the case itself', () => {
    // 20 V for each hertz: 40 V at 2 Hz.
    expect(reached('20 Hz')).toBeNaN();
  });
});
