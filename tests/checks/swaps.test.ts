import { describe, expect, it } from 'vitest';
import { checked, type Edits, edited, LINEAR } from '../engine/values/project.ts';

const HOT = 'setpoints.protection.motor_temperature_high';
const TUBING = 'well.tubing';

function offered(edits: Edits, check: string) {
  const { findings } = checked(edited(LINEAR, edits));
  return findings.filter((each) => each.check === check).flatMap(({ fixes }) => fixes);
}

describe('two entries in each other’s place', () => {
  it.each([
    ['well.tvd-exceeds-md', { 'well.intake.md': '1395 m', 'well.intake.tvd': '1420 m' }],
    ['protection.order', { [`${HOT}.trip`]: '105 degC', [`${HOT}.alarm`]: '115 degC' }],
    ['well.tubing-in-casing', { [`${TUBING}.inner_diameter`]: '73 mm', [`${TUBING}.outer_diameter`]: '62 mm' }],
  ])('%s offers to exchange them, in two edits of one offer', (check, edits) => {
    const [offer, ...others] = offered(edits, check);
    expect(others).toEqual([]);
    expect(offer?.edits.map(({ newText }) => newText).sort()).toEqual(Object.values(edits).sort());
  });

  it('offers none where the two are equal: an exchange mends nothing', () => {
    expect(offered({ [`${HOT}.trip`]: '110 degC', [`${HOT}.alarm`]: '110 degC' }, 'protection.order')).toEqual([]);
  });
});
