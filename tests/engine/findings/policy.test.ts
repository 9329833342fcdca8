import { describe, expect, it } from 'vitest';
import { checked } from '../../support/project.ts';
import { governed, POLICY, said, under } from './rulings.ts';

const HIGH = { 'setpoints.protection.overload.trip': '33 A' };

/** What is said of the policy itself. */
function faultsOf(policy: string) {
  return checked(governed(policy), POLICY).findings;
}

describe('a policy', () => {
  it('softens a check, and hardens none', () => {
    expect(
      said(under('checks: { overload.above-motor: { severity: note } }', HIGH), 'overload.above-motor'),
    ).toMatchObject([{ severity: 'note' }]);
    const hardened = under('checks: { protection.delay-unusual: { severity: error } }', {
      'setpoints.protection.overload.delay': '30 min',
    });
    expect(said(hardened, 'protection.delay-unusual')).toMatchObject([{ severity: 'warning' }]);
  });

  it('sets a check aside for a reason', () => {
    const file = under('checks: { overload.above-motor: { set_aside: relay outside of the drive } }', HIGH);
    expect(said(file, 'overload.above-motor')).toEqual([]);
    expect(file.statuses.get('overload.above-motor')).toEqual({
      status: 'set_aside',
      reason: 'relay outside of the drive',
    });
  });

  it('sets nothing aside without a reason', () => {
    expect(
      said(under('checks: { overload.above-motor: { set_aside: "" } }', HIGH), 'overload.above-motor'),
    ).toHaveLength(1);
  });

  it('changes a limit', () => {
    const delay = { 'setpoints.protection.overload.delay': '90 s' };
    expect(said(under('', delay), 'protection.delay-unusual')).toHaveLength(1);
    const wide = 'limits: { protection.delay-unusual.overload.longest: 2 min }';
    expect(said(under(wide, delay), 'protection.delay-unusual')).toEqual([]);
  });

  it('takes a share with its sign and as a bare number', () => {
    const at = (share: string) =>
      said(under(`limits: { overload.above-motor: ${share} }`, HIGH), 'overload.above-motor');
    expect(at('216 %')).toEqual([]);
    expect(at('2.16')).toEqual([]);
    expect(faultsOf('limits: { overload.above-motor: 2.16 }')).toEqual([]);
  });
});

describe('a limit of another dimension', () => {
  const wrong = 'limits: { protection.delay-unusual.overload.longest: 2 A }';

  it('is an error in the policy, and the default holds', () => {
    expect(faultsOf(wrong)).toMatchObject([{ check: 'units.wrong-dimension', severity: 'error' }]);
    const file = under(wrong, { 'setpoints.protection.overload.delay': '90 s' });
    expect(said(file, 'protection.delay-unusual')).toHaveLength(1);
  });
});

describe('a name in a policy that there is not', () => {
  it.each([
    ['limits: { tap.thin-margn: 3 % }', 'policy.unknown-limit', 'tap.thin-margin'],
    ['checks: { tap.thin-margn: { severity: note } }', 'policy.unknown-check', 'tap.thin-margin'],
    ['require: [tap.below-windw]', 'policy.unknown-check', 'tap.below-window'],
  ])('%s is an error there, with the nearest offered', (policy, check, near) => {
    const [fault, ...others] = faultsOf(policy);
    expect(fault).toMatchObject({ check, severity: 'error' });
    expect(fault?.fixes[0]?.edits[0]?.newText).toBe(near);
    expect(others).toEqual([]);
  });

  it("may be one of one's own", () => {
    expect(faultsOf('limits: { x_own: 3 % }\nchecks: { x_own: { severity: note } }')).toEqual([]);
  });
});

describe('a required check', () => {
  const REQUIRED = 'require: [identity.duplicate-well, tap.below-window]';

  it('that was not run is an error at the first line, which names it and what is missing', () => {
    const [finding, ...others] = said(under(REQUIRED), 'policy.required-not-run');
    expect(finding).toMatchObject({ severity: 'error', key: '' });
    expect(finding?.message).toMatch(/'identity\.duplicate-well'.*'other installations of the repository'/);
    expect(others).toEqual([]);
  });

  it('that is set aside is not asked for', () => {
    const aside = `${REQUIRED}\nchecks: { identity.duplicate-well: { set_aside: one well only } }`;
    expect(said(under(aside), 'policy.required-not-run')).toEqual([]);
  });
});
