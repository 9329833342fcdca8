import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checked, edited, openProject, SAMPLES } from '../../support/project.ts';

const WELL = join(SAMPLES, 'pad-a/qm-a1.yaml');
const TRIP = 'setpoints.protection.intake_pressure_low.trip';
const BAR = 1e5;

function bound(edits: Record<string, string>, id: string) {
  const file = checked(edited(openProject(WELL), WELL, edits), WELL);
  const window = file.worked?.windows.find((each) => each.window.setpoint === TRIP);
  const found = window?.bounds.find((each) => each.bound.id === id);
  if (found === undefined) throw new Error(`no bound ${id}`);
  return found;
}

describe('tolerances', () => {
  it('leave a bound as it is where nothing carries one', () => {
    expect(bound({}, 'intake-trip.above-static').corner).toEqual([]);
  });

  it('take a bound from above to its lowest corner', () => {
    const nominal = bound({}, 'intake-trip.above-static');
    const worst = bound({ 'reservoir.pressure': '78 bar +- 4 bar' }, 'intake-trip.above-static');
    // The static pressure follows the reservoir's one to one.
    expect(nominal.number - worst.number).toBeCloseTo(4 * BAR, 3);
    expect(worst.corner).toEqual([{ key: 'reservoir.pressure', end: 'low' }]);
  });

  it('take a bound from below to its highest corner', () => {
    const nominal = bound({}, 'intake-trip.below-casing-pressure');
    const worst = bound({ 'well.wellhead.casing_pressure': '4 bar +- 1 bar' }, 'intake-trip.below-casing-pressure');
    expect(worst.number - nominal.number).toBeCloseTo(BAR, 3);
    expect(worst.corner).toEqual([{ key: 'well.wellhead.casing_pressure', end: 'high' }]);
  });

  it('combine several entries, each at the end that tightens', () => {
    const edits = { 'reservoir.pressure': '78 bar +- 4 bar', 'fluid.water_density': '1060 kg/m3 +- 20 kg/m3' };
    const worst = bound(edits, 'intake-trip.above-flowing');
    expect(worst.corner).toContainEqual({ key: 'reservoir.pressure', end: 'low' });
    expect(worst.corner).toHaveLength(2);
  });

  it('do not apply to the setpoint that is judged', () => {
    expect(bound({ [TRIP]: '17 bar +- 1 bar' }, 'intake-trip.above-flowing').corner).toEqual([]);
  });

  it('are named in the finding that they cause', () => {
    const edits = { [TRIP]: '75 bar', 'reservoir.pressure': '78 bar +- 10 bar' };
    const file = checked(edited(openProject(WELL), WELL, edits), WELL);
    const finding = file.findings.find((each) => each.check === 'intake-trip.above-static');
    expect(finding?.message).toContain('reservoir.pressure at its low end');
  });
});
