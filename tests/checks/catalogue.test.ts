import { describe, expect, it } from 'vitest';
import type {
  Example,
  InstallationExample,
  TextExample,
  VisitExample,
} from '../../server/src/engine/findings/texts.ts';
import { CATALOGUE, type Check, type CheckedFile } from '../../server/src/engine/index.ts';
import { checkEdited, checkText, checkVisit, keyInVisit, unmark } from './example.ts';

/** A fault of the program itself: no document is known that brings it about, so there is no example. */
const WITHOUT_EXAMPLE = ['internal'];

const withExample = CATALOGUE.filter((check): check is Check & { example: Example } => check.example !== undefined);
const isText = (example: Example): example is TextExample => 'failing' in example;
const byText = withExample.filter((check) => isText(check.example)) as (Check & { example: TextExample })[];
const isVisit = (example: Example): example is VisitExample => 'visit' in example;
const byVisit = withExample.filter((check) => isVisit(check.example)) as (Check & { example: VisitExample })[];
const byFacts = withExample.filter(({ example }) => !isText(example) && !isVisit(example)) as (Check & {
  example: InstallationExample;
})[];

function ownFindings(file: CheckedFile, { id }: Check) {
  return file.findings.filter(({ check }) => check === id);
}

describe('the catalogue', () => {
  it('names each check once', () => {
    const ids = CATALOGUE.map(({ id }) => id);
    expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
  });

  it('has an example of every check', () => {
    const lacking = CATALOGUE.filter(({ example }) => example === undefined).map(({ id }) => id);
    expect(lacking).toEqual(WITHOUT_EXAMPLE);
  });

  it.each(CATALOGUE.map((check) => [check.id, check] as const))('%s says what it is', (_, check) => {
    expect(check.id).toMatch(/^(internal|[a-z][a-z0-9-]*(\.[a-z][a-z0-9-]*)+)$/);
    expect(check.title).toMatch(/^\S.{4,78}[^.\s]$/);
    expect(check.compares).toMatch(/^\S.{10,}[^.\s]$/);
    expect(check.why).toMatch(/^[A-Z0-9√].{10,}[.!?]$/);
    expect(check.mend).toMatch(/^[A-Z].{5,}\.$/);
    expect(check.source.length).toBeGreaterThan(3);
  });
});

describe('an example on a clean installation', () => {
  it.each(['linear', 'rotary'] as const)('the %s base has no error and no warning', (lift) => {
    const loud = checkEdited(lift).findings.filter(({ severity }) => severity !== 'note');
    expect(loud.map(({ check, message }) => `${check}: ${message}`)).toEqual([]);
  });

  it.each(byFacts.map((check) => [check.id, check] as const))('%s fails where it says', (_, check) => {
    const { lift, fails, beside, at } = check.example;
    const own = ownFindings(checkEdited(lift, fails, beside), check);
    expect(own.map(({ key }) => key)).toContain(at);
    for (const { message } of own) expect(message).toMatch(/^[^\s].*[.?]$/s);
  });

  it.each(byFacts.map((check) => [check.id, check] as const))('%s passes when it is mended', (_, check) => {
    const { lift, passes, beside } = check.example;
    const file = checkEdited(lift, passes, beside);
    expect(ownFindings(file, check)).toEqual([]);
    // What only a whole repository can tell passes nowhere on its own.
    if (check.foundBy !== 'file') expect(file.statuses.get(check.id)?.status).toBe('passed');
  });
});

describe('an example on the readings of a complete visit', () => {
  it.each(['linear', 'rotary'] as const)('those of the %s base have no finding', (lift) => {
    const { findings } = checkVisit(lift);
    expect(findings.map(({ check, key, message }) => `${check} ${key}: ${message}`)).toEqual([]);
  });

  it.each(byVisit.map((check) => [check.id, check] as const))('%s fails where it says', (_, check) => {
    const { visit, fails, at } = check.example;
    const file = checkVisit(visit, fails);
    const own = ownFindings(file, check);
    expect(own.some(({ key }) => key.startsWith(keyInVisit(file, at)))).toBe(true);
    for (const { message } of own) expect(message).toMatch(/^[^\s].*[.?]$/s);
  });

  it.each(byVisit.map((check) => [check.id, check] as const))('%s passes when it is mended', (_, check) => {
    const file = checkVisit(check.example.visit, check.example.passes);
    expect(ownFindings(file, check)).toEqual([]);
    expect(file.statuses.get(check.id)?.status).toBe('passed');
  });
});

describe('an example of writing', () => {
  it.each(byText.map((check) => [check.id, check] as const))('%s underlines what is wrong', (_, check) => {
    const { text, span } = unmark(check.example);
    const own = ownFindings(checkText(text), check);
    expect(own.map((finding) => ({ key: finding.key, span: finding.span }))).toContainEqual({
      key: check.example.at,
      span,
    });
  });

  it.each(byText.map((check) => [check.id, check] as const))('%s passes as it should be written', (_, check) => {
    const file = checkText(check.example.passing);
    expect(file.statuses.get(check.id)?.status).toBe('passed');
  });
});

describe('statuses', () => {
  const files = (): readonly (readonly [string, CheckedFile])[] => [
    ['linear', checkEdited('linear')],
    ['rotary', checkEdited('rotary')],
    ['a well that says little', checkEdited('linear', { setpoints: '{}', reservoir: '{}' })],
    ['a data sheet', checkText('document: cable/1\nname: an example\n')],
    ['a text that is none of ours', checkText('documnet: cable/1\n')],
    ['a visit', checkVisit('linear')],
    ['a visit to nowhere', checkText('document: readings/1\ninstallation: nowhere.yaml\n')],
    ['a broken text', checkText('document: cable/1\nname: [\n')],
  ];

  it.each(files())('%s has one status of every check', (_, file) => {
    expect([...file.statuses.keys()].sort()).toEqual(CATALOGUE.map(({ id }) => id).sort());
  });

  it.each(files())('%s has a status of finding for each check that found something', (_, file) => {
    for (const { check } of file.findings) expect(file.statuses.get(check)?.status).toBe('finding');
  });

  it.each(files())('%s says what was missing wherever something could not run', (_, file) => {
    for (const status of file.statuses.values()) {
      if (status.status === 'not_run') expect(status.missing.length).toBeGreaterThan(0);
    }
  });

  it('an installation checks neither the other lift’s pump nor a drive that is not there', () => {
    const statuses = checkEdited('linear', { 'equipment.drive': null, 'setpoints.drive': null }).statuses;
    for (const id of ['drive.overcurrent', 'drive.ramp', 'tap.cannot-reach-maximum-frequency']) {
      expect([id, statuses.get(id)?.status]).toEqual([id, 'not_applicable']);
    }
  });

  it('a bound on what does not apply is not applicable, not missing', () => {
    // Trimmed drives have no light-load limit, and the window of the tap is known all the same.
    expect(checkEdited('linear').statuses.get('tap.above-window')?.status).toBe('passed');
  });
});

describe('margins', () => {
  it('a passed bound tells how far the setpoint is inside, in the author’s unit', () => {
    const status = checkEdited('linear').statuses.get('tap.below-window');
    if (status?.status !== 'passed') throw new Error('it should pass');
    expect(status.margin?.unit).toBe('V');
    expect(status.margin?.number).toBeGreaterThan(60);
    expect(status.margin?.number).toBeLessThan(110);
  });

  it('the margin shrinks as the setpoint nears its bound', () => {
    const marginAt = (trip: string) => {
      const status = checkEdited('linear', { 'setpoints.protection.intake_pressure_low.trip': trip }).statuses.get(
        'intake-trip.above-flowing',
      );
      return status?.status === 'passed' ? (status.margin?.number ?? Number.NaN) : Number.NaN;
    };
    expect(marginAt('17 bar') - marginAt('18 bar')).toBeCloseTo(1, 1);
  });
});
