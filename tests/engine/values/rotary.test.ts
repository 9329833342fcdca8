import { describe, expect, it } from 'vitest';
import { type Edits, evaluate, number, ROTARY } from './project.ts';

const BAR = 1e5;
const G = 9.80665;
const ROOT3 = Math.sqrt(3);
const DAY = 86_400;
const COLUMN = 1000 * G;

/** I_r·√(i0² + (1 − i0²)·load²) with i0 = 6/20. */
function induction(load: number): number {
  return 20 * Math.sqrt(0.09 + 0.91 * load ** 2);
}

describe('a rotary unit with an induction motor', () => {
  const unit = evaluate(ROTARY);

  it('runs where its head is that of the system', () => {
    // At 29.6133 bar the system asks (10 + 98.0665 − 29.6133) bar = 800 m: the sheet's point of 100 stages · 8 m.
    expect((number(unit, 'pump.rate') ?? 0) * DAY).toBeCloseTo(50, 3);
    expect(number(unit, 'pump.head')).toBeCloseTo(800, 2);
    expect(number(unit, 'pump.power')).toBeCloseTo(10_000, 0);
    expect(number(unit, 'motor.current')).toBeCloseTo(induction(0.5), 4);
    expect(number(unit, 'motor.power_factor')).toBeCloseTo((0.85 * 0.5 * 20) / induction(0.5), 4);
  });

  it('draws the current of the power at zero rate when its discharge is closed', () => {
    expect(number(unit, 'motor.idle_current')).toBeCloseTo(induction(6 / 20), 6);
    // At 40 of 50 Hz power goes with the cube and the rating with the first power.
    expect(number(unit, 'motor.idle_current_at_minimum')).toBeCloseTo(induction((6 / 20) * 0.8 ** 2), 6);
  });

  it('holds the column from the frequency at which its shut-off head does', () => {
    // Static head (10 + 98.0665 − 80) bar; shut-off head 1000 m at 50 Hz, with the square of frequency.
    const head = (28.0665 * BAR) / COLUMN;
    expect(number(unit, 'lift.static_head')).toBeCloseTo(head, 6);
    expect(number(unit, 'pump.no_flow_frequency')).toBeCloseTo(50 * Math.sqrt(head / 1000), 5);
  });

  it('builds its shut-off pressure at the maximum frequency against a closed valve', () => {
    const rise = COLUMN * 1000 * 1.2 ** 2;
    expect(number(unit, 'pump.closed_valve_pressure')).toBeCloseTo(80 * BAR + rise, -1);
    expect(number(unit, 'pump.closed_valve_wellhead_pressure')).toBeCloseTo(80 * BAR + rise - COLUMN * 1000, -1);
    expect(number(unit, 'pump.housing_limit_frequency')).toBeCloseTo(50 * Math.sqrt((250 * BAR) / COLUMN / 1000), 4);
  });

  it('lifts from the pressure that its shut-off head leaves', () => {
    // Shut-off head and depth are both 1000 m: what is left is the tubing pressure.
    expect(number(unit, 'intake.lowest_lifted_pressure')).toBeCloseTo(10 * BAR, 0);
  });

  it('is at rest again at the least current where it restarts at static level and minimum frequency', () => {
    const restarted = evaluate(ROTARY, {
      'operation.cases': '[{ name: restart, intake: static, frequency: 40 Hz }]',
    });
    const current = number(restarted, 'motor.current') ?? Number.NaN;
    expect(number(unit, 'motor.restart_current')).toBeCloseTo(current, 6);
    const least = Math.min(current, ...[0, 1, 2].map((at) => number(unit, 'motor.current', at) ?? Number.NaN));
    expect(number(unit, 'motor.least_running_current')).toBeCloseTo(least, 6);
  });

  it('takes the voltage of its frequency and its winding', () => {
    // At rated frequency nothing is added to the rated voltage; at 40 Hz a fifth of the winding's drop.
    expect(number(unit, 'motor.voltage')).toBeCloseTo(800, 6);
    const slow = evaluate(ROTARY, {
      'operation.frequency': '40 Hz',
      'operation.cases': '[{ name: a, intake: static }]',
    });
    const current = number(slow, 'motor.current') ?? Number.NaN;
    const factor = number(slow, 'motor.power_factor') ?? Number.NaN;
    const warmed = 1 + 0.00393 * (current / 20) ** 2;
    expect(number(slow, 'motor.voltage')).toBeCloseTo(800 * 0.8 + ROOT3 * current * 0.5 * warmed * factor * 0.2, 6);
  });
});

describe('a permanent-magnet motor', () => {
  const magnet: Edits = {
    'motor.yaml: type': 'permanent_magnet',
    'motor.yaml: frequency': '100 Hz',
    'motor.yaml: max_frequency': '120 Hz',
    'operation.frequency': '100 Hz',
  };

  it('turns with its poles: 100 Hz and 4 poles are the curve’s 3000 rpm', () => {
    const unit = evaluate(ROTARY, { ...magnet, 'motor.yaml: poles': '4' });
    expect(number(unit, 'pump.speed_ratio')).toBeCloseTo(1, 9);
    expect(number(unit, 'motor.current')).toBeCloseTo(20 * 0.5, 4);
    expect(number(unit, 'motor.idle_current')).toBeCloseTo(20 * 0.3, 6);
  });

  it('has no guessed speed where its frequency is not of the curve’s range', () => {
    const unit = evaluate(ROTARY, magnet);
    expect(number(unit, 'pump.no_load_speed_ratio')).toBeUndefined();
    expect(number(unit, 'motor.current')).toBeUndefined();
  });
});

describe('started direct on line', () => {
  const unit = evaluate(ROTARY, { 'equipment.drive': undefined, 'setpoints.drive': undefined });
  // Supply 400 V less 10 %, through 1000/400; cable and lead 1.02 ohm, 0.4 mH/km over 1010 m at 50 Hz; transformer 3 % and
  // 4 % of 25 ohm.
  const emf = 900;
  const resistance = 1.02 + 0.75;
  const reactance = 2 * Math.PI * 50 * 0.4e-6 * 1010 + 1;

  it('leaves at the motor what the locked-rotor current does not take', () => {
    const left = number(unit, 'cable.start_voltage') ?? Number.NaN;
    const sine = Math.sqrt(1 - 0.4 ** 2);
    const along = left * 800 + ROOT3 * 100 * (resistance * 0.4 + reactance * sine);
    const across = ROOT3 * 100 * (reactance * 0.4 - resistance * sine);
    expect(Math.hypot(along, across)).toBeCloseTo(emf, 3);
  });

  it('leaves more where the rotor is an impedance', () => {
    const rotor = 800 / (ROOT3 * 100);
    const total = Math.hypot(rotor * 0.4 + resistance, rotor * Math.sqrt(0.84) + reactance);
    expect(number(unit, 'cable.start_voltage_by_impedance')).toBeCloseTo(((emf / 800) * rotor) / total, 6);
  });

  it('drives a two-phase fault through the impedance of two phases', () => {
    expect(number(unit, 'cable.fault_current')).toBeCloseTo(emf / (2 * Math.hypot(resistance, reactance)), 3);
  });

  it('leaves nothing where the circuit takes more than the supply gives', () => {
    const far = evaluate(ROTARY, {
      'equipment.drive': undefined,
      'setpoints.drive': undefined,
      'motor.yaml: locked_rotor_current': '900 A',
    });
    expect(number(far, 'cable.start_voltage')).toBe(0);
  });
});

describe('volts per hertz', () => {
  const unit = evaluate(ROTARY, {
    'setpoints.drive.voltage_mode': 'volts_per_hertz',
    'setpoints.drive.base_frequency': '60 Hz',
  });

  it('gives the motor what the line leaves behind transformer and cable', () => {
    // The line gives 400 V · 50/60 at both ends of the supply; times 1000/400 behind the transformer.
    const sent = (400 * 50) / 60 / 0.4;
    const terminal = number(unit, 'motor.terminal_voltage') ?? Number.NaN;
    const current = induction(0.5);
    const factor = (0.85 * 0.5 * 20) / current;
    const sine = Math.sqrt(1 - factor ** 2);
    const resistance = 1.02 + 0.75;
    const reactance = 2 * Math.PI * 50 * 0.4e-6 * 1010 + 1;
    const along = terminal + ROOT3 * current * (resistance * factor + reactance * sine);
    const across = ROOT3 * current * (reactance * factor - resistance * sine);
    expect(Math.hypot(along, across)).toBeCloseTo(sent, 1);
  });

  it('limits the tap by 1.10 of the motor’s voltage at the terminals', () => {
    const most = number(unit, 'transformer.tap_limit_light_load') ?? Number.NaN;
    const atLimit = evaluate(ROTARY, {
      'setpoints.drive.voltage_mode': 'volts_per_hertz',
      'setpoints.drive.base_frequency': '60 Hz',
      'transformer.yaml: taps': `[ { tap: 2, voltage: ${most} V } ]`,
    });
    expect(number(atLimit, 'motor.terminal_voltage')).toBeCloseTo(1.1 * 800, 1);
  });

  it('has the base frequency that fits at the volts per hertz of the nameplate', () => {
    // 400 V · 1000/400 = 1000 V; the motor has 800 V at 50 Hz, so 1000 V belong to 62.5 Hz.
    expect(number(unit, 'drive.matching_base_frequency')).toBeCloseTo(62.5, 9);
  });
});

describe('a cable in sections', () => {
  const hot: Edits = {
    'reservoir.temperature': '100 degC',
    'equipment.cable.main':
      '[{ datasheet: cable.yaml, length: 500 m, resistance_20: 2 ohm/km }, { datasheet: cable.yaml, length: 500 m }]',
    'equipment.cable.motor_lead': undefined,
  };

  it('has each section at its own temperature', () => {
    const unit = evaluate(ROTARY, hot);
    // 20 degC at the top, 100 degC at the bottom, straight between: the halves have 40 and 80 degC in the mean.
    const factor = (temperature: number) => 1 + 0.00393 * (temperature - 20);
    expect(number(unit, 'cable.main_resistance_by_section')).toBeCloseTo(1 * factor(40) + 0.5 * factor(80), 5);
    expect(number(unit, 'cable.resistance')).toBeCloseTo(1.5 * factor(60), 5);
    expect(number(unit, 'cable.hottest_by_section')).toBeCloseTo(100, 3);
  });
});

describe('doglegs', () => {
  const STATIONS =
    '[{ md: 0 m, inclination: 0 deg }, { md: 300 m, inclination: 0 deg }, { md: 600 m, inclination: 30 deg }, { md: 1200 m, inclination: 33 deg }]';
  const surveyed = evaluate(ROTARY, {
    'well.intake.tvd': undefined,
    'well.survey': STATIONS,
  });

  it('takes the stretch of pump and motor, and what the string passes', () => {
    // 3 deg over 600 m where the unit hangs; 30 deg over 300 m on the way.
    expect(number(surveyed, 'well.setting_dogleg')).toBeCloseTo(3 / 600, 9);
    expect(number(surveyed, 'well.passed_dogleg')).toBeCloseTo(30 / 300, 9);
  });

  it.each([
    ['just above a sharp bend', '299.5 m', 0],
    ['just below it', '600.5 m', 3 / 600],
    ['at its upper end', '300 m', 30 / 300],
    ['at its lower end', '600 m', 30 / 300],
  ])('takes the place of the intake where no lengths are entered: %s', (_, md, dogleg) => {
    const point = evaluate(ROTARY, {
      'well.intake': `{ md: ${md} }`,
      'well.survey': STATIONS,
      'pump.yaml: length': undefined,
      'motor.yaml: length': undefined,
    });
    expect(number(point, 'well.setting_dogleg')).toBeCloseTo(dogleg, 9);
  });
});
