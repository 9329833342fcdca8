import { describe, expect, it } from 'vitest';
import { said, tooHigh } from './rulings.ts';

const CHECK = 'overload.above-motor';
const APPROVED = 'reason: trial, approved_by: lead engineer, until: 2026-06-01';

function deviation(rest = APPROVED, more = ''): string {
  return `[ { check: ${CHECK}, ${more}${rest} } ]`;
}

/** Whether the finding is accepted, and what is said of the deviation. */
function judged(deviations: string, trip?: string) {
  const file = tooHigh(deviations, trip);
  const [finding] = said(file, CHECK);
  const faults = file.findings.filter(({ check }) => check.startsWith('deviation.'));
  return {
    accepted: finding?.deviated,
    status: file.statuses.get(CHECK)?.status,
    faults: faults.map(({ check, key }) => `${check} ${key}`),
  };
}

describe('a deviation', () => {
  it('accepts what it names, on its last day still', () => {
    expect(judged(deviation())).toEqual({ accepted: true, status: 'deviated', faults: [] });
  });

  it.each([
    [
      'that ran out',
      'reason: trial, approved_by: lead engineer, until: 2026-05-31',
      'deviation.expired deviations[0].until',
    ],
    ['without a last day', 'reason: trial, approved_by: lead engineer', 'deviation.expired deviations[0].until'],
    ['that nobody approved', 'reason: trial, until: 2026-12-31', 'deviation.unapproved deviations[0].approved_by'],
    ['without a reason', 'approved_by: lead engineer, until: 2026-12-31', 'deviation.unapproved deviations[0].reason'],
  ])('%s accepts nothing, and says so', (_, rest, fault) => {
    expect(judged(deviation(rest))).toEqual({ accepted: false, status: 'finding', faults: [fault] });
  });

  it('from a check that there is not offers the nearest', () => {
    const file = tooHigh(`[ { check: overload.above-moter, ${APPROVED} } ]`);
    const [fault] = said(file, 'deviation.unknown-check');
    expect(fault?.key).toBe('deviations[0].check');
    expect(fault?.fixes[0]?.edits[0]?.newText).toBe(CHECK);
  });

  it('cannot accept that it is none itself', () => {
    const own = `[ { check: deviation.unapproved, ${APPROVED} }, { check: ${CHECK}, until: 2026-12-31 } ]`;
    const file = tooHigh(own);
    expect(said(file, 'deviation.unapproved')).toMatchObject([{ deviated: false, key: 'deviations[1].approved_by' }]);
    expect(said(file, 'deviation.unknown-check')).toMatchObject([{ key: 'deviations[0].check' }]);
  });

  it.each([
    ['another key', 'key: setpoints.transformer.tap, '],
    ['another case', 'case: elsewhere, '],
  ])('for %s is not needed and accepts nothing', (_, more) => {
    const faults = ['deviation.not-needed deviations[0]'];
    expect(judged(deviation(APPROVED, more))).toEqual({ accepted: false, status: 'finding', faults });
  });

  it('from a check that finds nothing is not needed', () => {
    expect(judged(deviation(), '15 A').faults).toEqual(['deviation.not-needed deviations[0]']);
  });
});

describe('what a deviation accepts up to', () => {
  it.each([
    ['33 A', true],
    ['40 A', true],
    ['0.033 kA', true],
    ['32.9 A', false],
    ['33 V', false],
    ['33', false],
    ['plenty', false],
  ])('%s: 33 A is accepted: %s', (upTo, accepted) => {
    expect(judged(deviation(APPROVED, `up_to: ${upTo}, `)).accepted).toBe(accepted);
  });

  it('counts downwards where less is worse', () => {
    const at = (upTo: string) =>
      said(
        tooHigh(`[ { check: overload.below-running, up_to: ${upTo}, ${APPROVED} } ]`, '9 A'),
        'overload.below-running',
      );
    expect(at('8 A')).toMatchObject([{ deviated: true }]);
    expect(at('9.5 A')).toMatchObject([{ deviated: false }]);
  });
});
