import { describe, expect, it } from 'vitest';
import { edited, evaluate, LINEAR, number } from './project.ts';

const BAR = 1e5;
const G = 9.80665;
const ROOT3 = Math.sqrt(3);

/** p_tubing + ρ·g·h − p_static: 10 bar + 98.0665 bar − 80 bar. */
const DIFFERENCE = 28.0665 * BAR;
const AREA = (Math.PI / 4) * 0.05 ** 2;
const LOAD = AREA * DIFFERENCE + 1000;
const CURRENT = (16 * LOAD) / 20_000;

describe('a linear unit that stands still on static pressure', () => {
  const start = evaluate(LINEAR);

  it('lifts tubing pressure and column less the pressure at the intake', () => {
    expect(number(start, 'lift.differential_pressure')).toBeCloseTo(DIFFERENCE, -1);
    expect(number(start, 'pump.load')).toBeCloseTo(LOAD, 1);
  });

  it('takes current in proportion to force, and in the return stroke for friction alone', () => {
    expect(number(start, 'motor.current')).toBeCloseTo(CURRENT, 4);
    const back = (16 * 1000) / 20_000;
    expect(number(start, 'motor.current_rms')).toBeCloseTo(Math.sqrt((CURRENT ** 2 + back ** 2) / 2), 4);
    expect(number(start, 'motor.idle_current')).toBeCloseTo(back, 9);
  });

  it('needs the voltage of emf, reactance and winding', () => {
    // v = 1.2 m · 5/60 s / 0.5 = 0.2 m/s; f = 0.2/(2 · 0.05) = 2 Hz, half of the rated 4 Hz; R = 6/2 ohm at 20 degC.
    expect(number(start, 'motor.frequency')).toBeCloseTo(2, 9);
    // The winding is 1 K warmer at rated current, and less by the square of the current over the cycle.
    const warmed = 1 + 0.00393 * ((CURRENT ** 2 + 0.8 ** 2) / 2 / 16 ** 2);
    const emf = 320 * 0.85 - ROOT3 * 16 * 3 * (1 + 0.00393);
    const inPhase = emf / 2 + ROOT3 * CURRENT * 3 * warmed;
    const across = (320 * Math.sqrt(1 - 0.85 ** 2) * (CURRENT / 16)) / 2;
    const voltage = Math.hypot(inPhase, across);
    expect(number(start, 'motor.voltage')).toBeCloseTo(voltage, 3);
    expect(number(start, 'motor.power_factor')).toBeCloseTo(inPhase / voltage, 6);

    // Main cable 1 ohm and lead 0.02 ohm; 0.4 mH/km over 1010 m at 2 Hz; transformer 3 % and 4 % of 1000²/40 000 ohm.
    const resistance = 1.02;
    const reactance = 2 * Math.PI * 2 * 0.4e-6 * 1010;
    expect(number(start, 'cable.resistance')).toBeCloseTo(resistance, 6);
    expect(number(start, 'cable.reactance')).toBeCloseTo(reactance, 9);
    const sending = (r: number, x: number) => Math.hypot(inPhase + ROOT3 * CURRENT * r, across + ROOT3 * CURRENT * x);
    expect(number(start, 'surface.required_voltage')).toBeCloseTo(sending(resistance, reactance), 3);
    const emfNeeded = sending(resistance + 0.03 * 25, reactance + 0.04 * 25 * (2 / 5));
    expect(number(start, 'transformer.emf')).toBeCloseTo(emfNeeded, 3);
    expect(number(start, 'drive.output_voltage')).toBeCloseTo(emfNeeded * 0.4, 3);
    expect(number(start, 'surface.power')).toBeCloseTo(ROOT3 * CURRENT * inPhase + 3 * CURRENT ** 2 * resistance, 1);
  });

  it('presses against a closed valve with what overload trip or drive let it', () => {
    // The drive pushes 50 A · 1.5 · 400/1000 = 30 A at the motor; the trip of 10 A acts before.
    expect(number(start, 'drive.current_limit_at_motor')).toBeCloseTo(30, 9);
    const byTrip = 80 * BAR + ((20_000 * 10) / 16 - 1000) / AREA;
    expect(number(start, 'pump.closed_valve_pressure')).toBeCloseTo(byTrip, -1);
    const off = evaluate(LINEAR, { 'setpoints.protection.overload.enabled': 'no' });
    const byDrive = 80 * BAR + ((20_000 * 30) / 16 - 1000) / AREA;
    expect(number(off, 'pump.closed_valve_pressure')).toBeCloseTo(byDrive, -1);
    expect(number(off, 'pump.closed_valve_wellhead_pressure')).toBeCloseTo(byDrive - 1000 * G * 1000, -1);
  });

  it('has the resistance of two phases and the winding', () => {
    expect(number(start, 'reading.expected_resistance')).toBeCloseTo(6 + 2 * 1.02, 9);
  });

  it('expects at the gauge the column down to it', () => {
    expect(number(start, 'reading.expected_static_pressure')).toBeCloseTo(80 * BAR + 1000 * G * 5, -1);
  });
});

describe('a double-acting pump', () => {
  const double = evaluate(LINEAR, { 'pump.yaml: acting': 'double', 'pump.yaml: rod_diameter': '20 mm' });
  const rod = (Math.PI / 4) * 0.02 ** 2;

  it('sweeps both sides of the plunger', () => {
    expect(number(double, 'pump.displacement')).toBeCloseTo(1.2 * (5 / 60) * (2 * AREA - rod), 9);
  });

  it('carries the smaller side on the way back', () => {
    const back = (AREA - rod) * DIFFERENCE + 1000;
    expect(number(double, 'pump.return_load')).toBeCloseTo(back, 1);
    const rms = Math.sqrt((CURRENT ** 2 + ((16 * back) / 20_000) ** 2) / 2);
    expect(number(double, 'motor.current_rms')).toBeCloseTo(rms, 4);
  });
});

describe('the cycle', () => {
  it('has equal strokes around its dwell where no share is entered', () => {
    const dwelling = evaluate(LINEAR, {
      'operation.stroke.up_fraction': undefined,
      'operation.stroke.dwell': '3 s',
    });
    // 12 s a cycle, 3 s of dwell: the loaded stroke is (1 − 0.25)/2 of it.
    expect(number(dwelling, 'pump.loaded_share')).toBeCloseTo(0.375, 9);
    expect(number(dwelling, 'pump.loaded_speed')).toBeCloseTo((1.2 * 5) / 60 / 0.375, 9);
  });

  it('has no loaded stroke where the dwell outlasts it', () => {
    const stuck = evaluate(LINEAR, {
      'operation.stroke.up_fraction': undefined,
      'operation.stroke.dwell': '30 s',
    });
    expect(number(stuck, 'pump.loaded_share')).toBeUndefined();
  });
});

describe('fit and handling', () => {
  it('takes the largest of motor, pump with lead, and tubing with flat cable', () => {
    // Motor 108; pump 90 + round lead 10 = 100; tubing 73 + thickness 12 = 85 mm. Drift 155 mm.
    const fit = evaluate(LINEAR);
    expect(number(fit, 'fit.clearance')).toBeCloseTo(0.155 - 0.108, 9);
    const slim = evaluate(LINEAR, { 'motor.yaml: outer_diameter': '80 mm' });
    expect(number(slim, 'fit.clearance')).toBeCloseTo(0.155 - 0.1, 9);
  });

  it('lifts the cable reel of 900 kg as its heaviest piece', () => {
    const lifted = evaluate(LINEAR);
    expect(number(lifted, 'handling.lift_mass')).toBe(900);
    expect(number(lifted, 'handling.sling_margin')).toBeCloseTo(2000 / 900, 9);
  });

  it('does not know the heaviest lift while one has no mass', () => {
    expect(number(evaluate(LINEAR, { 'cable.yaml: mass': undefined }), 'handling.lift_mass')).toBeUndefined();
  });
});

describe('what cannot be read', () => {
  it('does not count as absent', () => {
    const garbled = evaluate(LINEAR, { 'equipment.cable.motor_lead.length': 'ten metres' });
    expect(number(garbled, 'cable.lead_resistance')).toBeUndefined();
    expect(number(garbled, 'cable.resistance')).toBeUndefined();
  });

  it('is not replaced by a correlation', () => {
    const garbled = edited(LINEAR, {
      'reservoir.bubble_point': 'five',
      'fluid.gas_oil_ratio': '20 m3/m3',
      'fluid.gas_gravity': '0.7',
    });
    expect(number(evaluate(garbled), 'fluid.bubble_point')).toBeUndefined();
    const absent = edited(garbled, { 'reservoir.bubble_point': undefined });
    expect(number(evaluate(absent), 'fluid.bubble_point')).toBeGreaterThan(BAR);
  });
});

it('takes a kinematic viscosity times the density', () => {
  const kinematic = evaluate(LINEAR, { 'fluid.viscosity': '10 cSt' });
  expect(number(kinematic, 'fluid.dynamic_viscosity')).toBeCloseTo(10e-6 * 1000, 12);
});
