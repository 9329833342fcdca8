import { describe, expect, it } from 'vitest';
import type { WindowReading } from '../../../server/src/engine/index.ts';
import { checked, edited, LINEAR, type Project, ROTARY, windowOf } from '../values/project.ts';

const OVERLOAD = 'setpoints.protection.overload.trip';
const UNDERLOAD = 'setpoints.protection.underload.trip';
const SHORT_CIRCUIT = 'setpoints.protection.short_circuit.trip';

/** The tightest number that a bound comes to over the cases. */
function boundOf(reading: WindowReading, id: string): number | undefined {
  return reading.bounds.find(({ bound }) => bound.id === id)?.number;
}

function found(project: Project, edits: Readonly<Record<string, string | undefined>>): readonly string[] {
  return checked(edited(project, edits)).findings.map(({ check }) => check);
}

/** Highest current of the linear project: that of the case at the trip of 20 bar. */
const PEAK = (16 * ((Math.PI / 4) * 0.05 ** 2 * 88.0665e5 + 1000)) / 20_000;
const RMS = Math.sqrt((PEAK ** 2 + 0.8 ** 2) / 2);

describe('the overload trip', () => {
  it('is bounded by the current over the cycle, or at the peak of the stroke', () => {
    expect(boundOf(windowOf(LINEAR, OVERLOAD), 'overload.below-running')).toBeCloseTo(RMS, 3);
    const peak = windowOf(LINEAR, OVERLOAD, { 'setpoints.protection.overload.basis': 'stroke_peak' });
    expect(boundOf(peak, 'overload.below-running')).toBeCloseTo(PEAK, 3);
  });

  it('is bounded by 115 % of 16 A and by the 30 A that the drive pushes', () => {
    const window = windowOf(LINEAR, OVERLOAD);
    expect(boundOf(window, 'overload.above-motor')).toBeCloseTo(18.4, 9);
    expect(boundOf(window, 'overload.above-drive')).toBeCloseTo(30, 9);
    expect(window.ends.hardUpper).toBeCloseTo(18.4, 9);
    expect(window.recommended).toBeCloseTo(1.15 * RMS, 1);
  });

  it('has all its bounds at the drive side where it is measured there', () => {
    const window = windowOf(LINEAR, OVERLOAD, { 'setpoints.protection.overload.side': 'drive', [OVERLOAD]: '26 A' });
    expect(boundOf(window, 'overload.below-running')).toBeCloseTo(RMS * 2.5, 2);
    expect(boundOf(window, 'overload.above-motor')).toBeCloseTo(46, 9);
    expect(boundOf(window, 'overload.above-drive')).toBeCloseTo(75, 9);
  });

  it('may be at the rating’s 115 %, and not at the running current', () => {
    expect(found(LINEAR, { [OVERLOAD]: '18.4 A' })).not.toContain('overload.above-motor');
    expect(found(LINEAR, { [OVERLOAD]: '18.5 A' })).toContain('overload.above-motor');
    expect(found(LINEAR, { [OVERLOAD]: `${(RMS * 0.99).toFixed(2)} A` })).toContain('overload.below-running');
    expect(found(LINEAR, { [OVERLOAD]: `${(RMS * 1.02).toFixed(2)} A` })).toContain('overload.near-running');
  });

  it('has no window where it is switched off', () => {
    const file = checked(edited(LINEAR, { 'setpoints.protection.overload.enabled': 'no', [OVERLOAD]: '500 A' }));
    expect(file.worked?.windows.find(({ window }) => window.setpoint === OVERLOAD)?.applies).toBe(false);
    expect(file.statuses.get('overload.above-motor')?.status).toBe('not_applicable');
  });
});

describe('the underload trip', () => {
  it('lies between an empty plunger and the restart at static level', () => {
    // Empty: 1 kN of 20 kN in both strokes. Restart: 28.0665 bar on the plunger and 1 kN.
    const window = windowOf(LINEAR, UNDERLOAD);
    const restart = (16 * ((Math.PI / 4) * 0.05 ** 2 * 28.0665e5 + 1000)) / 20_000;
    const rms = Math.sqrt((restart ** 2 + 0.8 ** 2) / 2);
    expect(boundOf(window, 'underload.never-acts.idle')).toBeCloseTo(0.8, 9);
    expect(boundOf(window, 'underload.above-running.restart')).toBeCloseTo(rms, 3);
    expect(window.recommended).toBeCloseTo((0.8 + rms) / 2, 2);
  });

  it('is an error above the running current and a warning below the idle one', () => {
    expect(found(LINEAR, { [UNDERLOAD]: '9 A' })).toContain('underload.above-running');
    expect(found(LINEAR, { [UNDERLOAD]: '0.7 A' })).toContain('underload.never-acts');
    // At the frequency of a case a closed discharge draws 20·√(0.09 + 0.91·0.3²) = 8.29 A: far more than the no-load 6 A.
    expect(found(ROTARY, { [UNDERLOAD]: '7 A' })).toContain('underload.never-acts');
  });
});

describe('the short-circuit trip', () => {
  it('lies between the peak of a stroke with a quarter more and what the drive pushes', () => {
    const window = windowOf(LINEAR, SHORT_CIRCUIT);
    expect(boundOf(window, 'short-circuit.below-start')).toBeCloseTo(1.25 * PEAK, 3);
    expect(boundOf(window, 'short-circuit.never-acts.drive')).toBeCloseTo(30, 9);
    expect(window.recommended).toBeCloseTo(Math.sqrt(1.25 * PEAK * 30), 1);
  });

  it('goes by locked rotor and fault current across the line', () => {
    const line = windowOf(ROTARY, SHORT_CIRCUIT, { 'equipment.drive': undefined, 'setpoints.drive': undefined });
    // 1.25 · 100 A; 900 V/(2·|1.77 + j1.1269| ohm) = 214.46 A, of which 70 %.
    expect(boundOf(line, 'short-circuit.below-start')).toBeCloseTo(125, 6);
    expect(boundOf(line, 'short-circuit.never-acts.line')).toBeCloseTo(0.7 * 214.46, 1);
    expect(line.bounds.find(({ bound }) => bound.id === 'short-circuit.never-acts.drive')?.status).toBe(
      'not-applicable',
    );
  });
});

describe('frequencies', () => {
  const MINIMUM = 'setpoints.drive.min_frequency';

  it('have the no-flow frequency of a rotary pump below them', () => {
    // √(286.2 m/1000 m) of 50 Hz.
    expect(boundOf(windowOf(ROTARY, MINIMUM), 'pump.no-flow-at-minimum-frequency')).toBeCloseTo(26.75, 2);
    expect(found(ROTARY, { [MINIMUM]: '20 Hz' })).toContain('pump.no-flow-at-minimum-frequency');
  });

  it('must be in order and cover the cases', () => {
    expect(found(ROTARY, { [MINIMUM]: '55 Hz', 'setpoints.drive.base_frequency': '70 Hz' })).toContain(
      'drive.operating-outside-limits',
    );
    expect(found(ROTARY, { 'setpoints.drive.max_frequency': '70 Hz' })).toContain('drive.frequency-above-motor');
  });
});

describe('strokes', () => {
  it('stay below the rated speed of the motor', () => {
    // 0.4 m/s · 0.5/1.2 m = 1/6 s⁻¹ = 10 /min, as the pump’s own limit.
    const window = windowOf(LINEAR, 'operation.stroke.rate');
    expect(boundOf(window, 'motor.stroke-speed.rate')).toBeCloseTo(1 / 6, 9);
    expect(boundOf(window, 'pump.stroke-rate')).toBeCloseTo(1 / 6, 9);
  });
});

describe('the restart delay', () => {
  it('waits for the column to fall back without a check valve', () => {
    const short = { 'setpoints.restart.delay': '20 min' };
    expect(found(ROTARY, { ...short, 'well.tubing.check_valve': 'no' })).toContain('restart.delay-short');
    expect(found(ROTARY, { ...short, 'well.tubing.check_valve': 'yes' })).not.toContain('restart.delay-short');
  });
});

describe('voltage trips', () => {
  it('lie between the tolerance of the supply and 20 %', () => {
    const over = windowOf(ROTARY, 'setpoints.protection.overvoltage.trip');
    expect([over.ends.lower, over.ends.upper]).toEqual([440.00000000000006, 480]);
    expect(over.recommended).toBeCloseTo(460, 9);
    const under = windowOf(ROTARY, 'setpoints.protection.undervoltage.trip');
    expect([under.ends.lower, under.ends.upper]).toEqual([320, 360]);
  });

  it('go by the motor’s voltage at its side', () => {
    const over = windowOf(ROTARY, 'setpoints.protection.overvoltage.trip', {
      'setpoints.protection.overvoltage.side': 'motor',
    });
    // The motor needs 800 V at 50 Hz.
    expect(over.ends.lower).toBeCloseTo(880, 3);
    expect(over.ends.upper).toBeCloseTo(960, 3);
  });
});
