import { describe, expect, it } from 'vitest';
import type { ExampleEdits, InstallationExample } from '../../../server/src/engine/findings/texts.ts';
import { checkEdited } from '../../checks/example.ts';

/** Errors and warnings of some checks, each with its key. */
function said(lift: InstallationExample['lift'], edits: ExampleEdits, ...checks: readonly string[]): readonly string[] {
  return checkEdited(lift, edits).findings.flatMap(({ check, key }) =>
    checks.includes(check) ? [`${check} at ${key}`] : [],
  );
}

const BOTH_TYPES = ['pump.wrong-type', 'motor.wrong-type'] as const;

describe('equipment against the lift', () => {
  it('a centrifugal pump in a linear lift is the pump’s mistake alone', () => {
    const edits = { 'equipment.pump.datasheet': 'equipment/centrifugal-125.yaml' };
    expect(said('linear', edits, ...BOTH_TYPES)).toEqual(['pump.wrong-type at equipment.pump']);
  });

  it.each([
    ['linear', 'rotary'],
    ['rotary', 'linear'],
  ] as const)('a %s unit with the lift of another well, %s, is one mistake', (unit, lift) => {
    expect(said(unit, { lift }, ...BOTH_TYPES)).toEqual([expect.stringMatching(/^motor\.wrong-type/)]);
  });
});

describe('the heads of a curve', () => {
  const heads = (...of: readonly number[]) => {
    const points = of.map((head, at) => `{ rate: ${at * 40} m3/d, head: ${head} m, power: ${0.1 + at / 50} kW }`);
    return {
      'equipment.pump.curve': `{ frequency: 50 Hz, speed: 2900 rpm, density: 1000 kg/m3, points: [ ${points.join(', ')} ] }`,
    };
  };

  it('may rise up to their summit', () => {
    expect(said('rotary', heads(8.8, 9, 8.4, 7, 4, 1), 'pump.curve-not-falling')).toEqual([]);
  });

  it('may not rise again after a fall, below the best point either', () => {
    expect(said('rotary', heads(9, 6, 8.4, 7, 4, 1), 'pump.curve-not-falling')).toEqual([
      'pump.curve-not-falling at equipment.pump.curve.points[2].head',
    ]);
  });
});

describe('the loss of the winding', () => {
  const WINDING = 'equipment.motor.phase_resistance';

  it('may not reach what the motor takes: 1.5 × R × 15.3² A² against 13.97 kW', () => {
    const of = (resistance: string) => said('linear', { [WINDING]: resistance }, 'nameplate.inconsistent');
    expect(of('39 ohm')).toEqual([]);
    expect(of('40 ohm')).toEqual([`nameplate.inconsistent at ${WINDING}`]);
  });

  it('is not spoken of where a slipped current says it all', () => {
    expect(said('linear', { 'equipment.motor.current': '153 A' }, 'nameplate.inconsistent')).not.toContain(
      `nameplate.inconsistent at ${WINDING}`,
    );
  });
});
