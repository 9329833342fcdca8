import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Comparison, compareFiles, Repository } from '../../../server/src/engine/index.ts';

const TODAY = '2026-03-14';
const HOME = join(import.meta.dirname, '../../..');

function checked(text: string, others: Readonly<Record<string, string>> = {}) {
  const files = Object.entries({ '/r/a.yaml': text, ...others });
  let repository = Repository.empty({ root: '/r', today: TODAY }).update(
    files.map(([path, each]) => ({ path, text: each })),
  );
  for (let wanted = repository.wanted(); wanted.length > 0; wanted = repository.wanted())
    repository = repository.update(wanted.map((path) => ({ path, absent: true })));
  return repository.check('/r/a.yaml');
}

function compared(before: string, after: string): Comparison {
  return compareFiles(checked(before), checked(after));
}

const well = (rest: string) => `document: installation/1\nsite: { well: T-01 }\nlift: linear\n${rest}\n`;
const labels = (changes: Comparison['entries']) => changes.map(({ label }) => label);

describe('entries', () => {
  test('another unit is no change, and is told apart', () => {
    const { entries, rewritten } = compared(
      well('reservoir: { pressure: 1000 psi }'),
      well('reservoir: { pressure: 68.95 bar }'),
    );
    expect(entries).toEqual([]);
    expect(rewritten[0]).toMatchObject({
      label: 'reservoir.pressure',
      before: { text: '1000 psi (68.95 bar)' },
      after: { text: '68.95 bar' },
    });
  });

  test('rounding that loses more than a page does is a change', () => {
    const { entries } = compared(well('reservoir: { pressure: 1000 psi }'), well('reservoir: { pressure: 69 bar }'));
    expect(labels(entries)).toEqual(['reservoir.pressure']);
  });

  test('in one unit the least change counts', () => {
    const { entries } = compared(well('reservoir: { pressure: 78 bar }'), well('reservoir: { pressure: 78.001 bar }'));
    expect(labels(entries)).toEqual(['reservoir.pressure']);
  });

  test('a pressure that is measured from another zero changed, whatever its digits', () => {
    const bare = 'reservoir: { pressure: 78 bar }';
    const { entries } = compared(well(bare), well(`conventions: { pressure: absolute }\n${bare}`));
    const pressure = entries.find(({ label }) => label === 'reservoir.pressure');
    expect(pressure).toMatchObject({
      before: { text: '78 bar (gauge)' },
      after: { text: '78 bar (absolute)' },
      difference: { text: '-1.013 bar' },
    });
  });

  test('a temperature has a difference and no share, a share is told in points', () => {
    const { entries } = compared(
      well('reservoir: { temperature: 50 degC }\nfluid: { water_cut: 40 % }'),
      well('reservoir: { temperature: 60 degC }\nfluid: { water_cut: 55 % }'),
    );
    expect(entries.map(({ difference }) => difference)).toMatchObject([
      { text: '+10 K', percent: undefined },
      { text: '+15 percentage points', percent: undefined },
    ]);
  });

  test('setpoints come first, with absolute and relative change', () => {
    const text = (depth: string, trip: string) =>
      well(`well: { intake: { md: ${depth} } }\nsetpoints: { protection: { overload: { trip: ${trip} } } }`);
    const { entries } = compared(text('1000 m', '15 A'), text('1010 m', '18 A'));
    expect(labels(entries)).toEqual(['setpoints.protection.overload.trip', 'well.intake.md']);
    expect(entries[0]?.difference).toMatchObject({ text: '+3 A', number: 3 });
    expect(entries[0]?.difference?.percent).toBeCloseTo(20);
  });

  test('cases are matched by name, whatever their order', () => {
    const cases = (list: string) => well(`operation: { cases: [ ${list} ] }`);
    const { entries } = compared(
      cases('{ name: start, intake: static }, { name: target, intake: flowing }'),
      cases('{ name: target, intake: static }, { name: start, intake: static }'),
    );
    expect(labels(entries)).toEqual(['operation.cases[target].intake']);
  });

  test('a survey is matched by depth, so that a station put in is no change of the others', () => {
    const survey = (rows: string) => well(`well: { survey: [ ${rows} ] }`);
    const { entries } = compared(
      survey('{ md: 0 m, tvd: 0 m }, { md: 3280.84 ft, tvd: 990 m }'),
      survey('{ md: 0 m, tvd: 0 m }, { md: 500 m, tvd: 499 m }, { md: 1000 m, tvd: 991 m }'),
    );
    expect(entries.map(({ label, change }) => `${change} ${label}`).sort()).toEqual([
      'added well.survey[500 m].md',
      'added well.survey[500 m].tvd',
      'changed well.survey[1000 m].tvd',
    ]);
  });

  test('a row put between others without names is added, and the rest stays', () => {
    const cable = (rows: string) => `document: cable/1\nname: c\nconnections: [ ${rows} ]\n`;
    const row = (joins: string) => `{ joins: ${joins}, seal: kit }`;
    const { entries } = compared(
      cable([row('a'), row('b')].join(', ')),
      cable([row('a'), row('new'), row('b')].join(', ')),
    );
    expect(entries.map(({ label, change }) => `${change} ${label}`)).toEqual([
      'added connections[1].joins',
      'added connections[1].seal',
    ]);
  });

  test('comments and order say nothing, and that is said', () => {
    const { change, entries, remarks } = compared(
      well('fluid: { h2s: 0 ppm, co2: 1 % }'),
      well('# new\nfluid: { co2: 1 %, h2s: 0 ppm }'),
    );
    expect({ change, entries }).toEqual({ change: 'changed', entries: [] });
    expect(remarks.join(' ')).toContain('Only comments');
  });

  test('a revision that was not raised is worth a remark, one that was is not', () => {
    const text = (revision: string, trip: string) =>
      well(`revision: { number: ${revision} }\nsetpoints: { protection: { overload: { trip: ${trip} } } }`);
    expect(compared(text('B', '15 A'), text('B', '16 A')).remarks).toEqual([
      'Entries changed and the revision is still B.',
    ]);
    expect(compared(text('B', '15 A'), text('C', '16 A')).remarks).toEqual([]);
  });

  test('what cannot be read whole is not called the same', () => {
    const { remarks } = compared(well('fluid: { h2s: 0 ppm }'), well('fluid: { h2s: 0 ppm'));
    expect(remarks.join(' ')).toContain('cannot be read whole');
  });
});

describe('findings, checks and deviations', () => {
  const delay = (text: string) => well(`setpoints: { protection: { overload: { trip: 15 A, delay: ${text} } } }`);

  test('a new finding and a gone one', () => {
    const [good, bad] = [delay('30 s'), delay('30 bar')];
    expect(compared(good, bad).findings.map(({ change }) => change)).toContain('new');
    expect(compared(bad, good).findings.map(({ change }) => change)).toContain('gone');
  });

  test('a check that is no longer run names what is missing', () => {
    const text = readFileSync(join(HOME, 'samples/pad-a/qm-a1.yaml'), 'utf8');
    const { statuses } = compared(text, text.replace(/^ {2}casing: .*$/m, ''));
    const lost = statuses.filter(({ before, after }) => before !== 'not_run' && after === 'not_run');
    expect(lost.flatMap(({ missing }) => missing)).toContain('well.casing.inner_diameter');
  });

  const deviation = (until: string, reason = 'agreed') =>
    well(`deviations: [ { check: tap.thin-margin, reason: ${reason}, approved_by: lead, until: ${until} } ]`);

  test.each([
    ['added', well(''), deviation('2027-01-01'), false],
    ['removed', deviation('2027-01-01'), well(''), false],
    ['changed', deviation('2027-01-01'), deviation('2028-01-01'), false],
    ['expired', deviation('2025-01-01'), deviation('2025-01-01'), true],
    ['changed', deviation('2027-01-01'), deviation('2025-01-01'), true],
  ])('a deviation is %s', (change, before, after, isExpired) => {
    expect(compared(before, after).deviations).toMatchObject([{ change, check: 'tap.thin-margin', isExpired }]);
  });

  test('an unchanged deviation in force is no news', () => {
    expect(compared(deviation('2027-01-01'), deviation('2027-01-01')).deviations).toEqual([]);
  });
});

test('a limit of a policy that is added stands beside its default', () => {
  const policy = (rest: string) => `document: policy/1\n${rest}`;
  const { entries } = compared(policy('limits: {}\n'), policy('limits: { motor.near-rating: 92 % }\n'));
  expect(entries).toMatchObject([{ label: 'limits.motor.near-rating', change: 'added', after: { text: '92 %' } }]);
  expect(entries[0]?.before?.text).toMatch(/ % \(default\)$/);
});

test('a file on one side only is new or removed', () => {
  const file = checked(well(''));
  expect(compareFiles(undefined, file).change).toBe('added');
  expect(compareFiles(file, undefined).change).toBe('removed');
  expect(compareFiles(file, file).change).toBe('same');
});
