import { describe, expect, it } from 'vitest';
import { violated } from '../../../server/src/engine/windows/reading.ts';
import { meantByRoot3 } from '../../../server/src/engine/windows/root3.ts';
import { TAP } from '../../../server/src/engine/windows/tap.ts';
import { evaluate, LINEAR, number, windowOf } from '../values/project.ts';

const ROOT3 = Math.sqrt(3);

describe('a tap that √3 explains', () => {
  it('is a phase voltage below the window, or the voltage of a delta above it', () => {
    expect(meantByRoot3(600, 1000, 1500)).toBeCloseTo(600 * ROOT3, 6);
    expect(meantByRoot3(1900, 1000, 1500)).toBeCloseTo(1900 / ROOT3, 6);
  });

  it('would be where one chooses taps: no more than a quarter above the least', () => {
    expect(meantByRoot3(740, 1000, 1500)).toBeUndefined();
    expect(meantByRoot3(500, 1000, 1500)).toBeUndefined();
    expect(meantByRoot3(640, 1000, 1100)).toBeUndefined();
  });

  it('is told by what was mistaken', () => {
    const ends = { hardLower: 1000, hardUpper: 1500, lower: 1000, upper: 1500 };
    const explain = (tap: number) => TAP.diagnosis?.explain(tap, ends, (voltage) => `${Math.round(voltage)} V`);
    expect(explain(600)).toMatch(/times √3 it is 1039 V, .* phase voltage for line voltage/);
    expect(explain(1900)).toMatch(/divided by √3 it is 1097 V, .* a delta for a wye/);
  });
});

describe('the tap that is recommended', () => {
  function because(low: number): string | undefined {
    const taps = `[ { tap: 1, voltage: ${low} V }, { tap: 2, voltage: 1000 V } ]`;
    return TAP.choice?.(evaluate(LINEAR, { 'transformer.yaml: taps': taps }), 1000)?.because;
  }

  it('is the lowest that serves, with something to spare only where a lower one serves barely', () => {
    const least = number(evaluate(LINEAR), 'transformer.tap_min') ?? Number.NaN;
    expect(because(least - 10)).toBe('is the lowest that serves');
    expect(because(least + 1)).toBe('is the lowest that serves with something to spare');
  });
});

it('names first the bound that a setpoint is furthest beyond', () => {
  const far = windowOf(LINEAR, 'setpoints.protection.intake_pressure_low.trip', {
    'setpoints.protection.intake_pressure_low.trip': '0.1 bar',
  });
  const numbers = violated(far, 'lower', true).map((each) => each.number);
  expect(numbers.length).toBeGreaterThan(1);
  expect(numbers).toEqual(numbers.toSorted((a, b) => b - a));
});
