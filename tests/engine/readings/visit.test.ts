import { beforeAll, describe, expect, it } from 'vitest';
import { type CheckedFile, readDocument, savedIn } from '../../../server/src/engine/index.ts';
import { momentOf } from '../../../server/src/engine/readings/moments.ts';
import { overlaid } from '../../../server/src/engine/readings/overlay.ts';
import { checkVisit } from '../../checks/example.ts';

const found = ({ findings }: CheckedFile) => findings.map(({ check, severity }) => `${severity} ${check}`);

describe('insulation of the motor', () => {
  const at = (insulation: string, temperature: string) =>
    found(
      checkVisit('linear', {
        'row inspection.motor.insulation': `{ value: ${insulation} }`,
        'row inspection.motor.temperature': `{ value: ${temperature} }`,
      }),
    ).filter((each) => each.includes('insulation'));

  it('that is enough as read and too little at 40 degC is an error near it, a warning far from it', () => {
    expect(at('700 Mohm', '25 degC')).toEqual(['error readings.insulation']);
    expect(at('700 Mohm', '-5 degC')).toEqual(['warning readings.insulation']);
  });

  it('beyond the range of the instrument is enough', () => {
    expect(at("'> 20 Gohm'", '25 degC')).toEqual([]);
  });

  it('without its temperature is not judged whole, and that is said', () => {
    const file = checkVisit('linear', { 'row inspection.motor.temperature': null });
    expect(file.statuses.get('readings.insulation')).toEqual({
      status: 'not_run',
      missing: ['inspection.motor.temperature'],
    });
  });
});

describe('a resistance at receipt', () => {
  it('is brought to 20 degC before it is compared', () => {
    // 9.9 ohm at 20 degC is 8.3 ohm at -21 degC, which would be too little as read.
    const cold = {
      'row inspection.motor.temperature': '{ value: -21 degC }',
      'row inspection.motor.insulation': '{ value: 900 Gohm }',
      'row inspection.motor.winding_resistance': '{ values: [8.3 ohm, 8.3 ohm, 8.3 ohm] }',
    };
    expect(found(checkVisit('linear', cold))).toEqual([]);
    const warm = { ...cold, 'row inspection.motor.temperature': '{ value: 20 degC }' };
    expect(found(checkVisit('linear', warm))).toEqual(['error readings.out-of-limit']);
  });
});

describe('readings in other units', () => {
  it('are judged by what they are', () => {
    const inPsi = (value: string) =>
      found(checkVisit('linear', { 'row start.intake_pressure': `{ value: ${value} }` }));
    expect(inPsi('996 psi(g)')).toEqual([]);
    expect(inPsi('68.7 psi(g)')).toEqual(['warning readings.running-differs']);
  });
});

describe('settings as left', () => {
  it('are the same in another unit, and in another order of a list', () => {
    const edits = {
      'as_left.start.override': '540 min',
      'as_left.restart.after': '[undervoltage, underload, intake_pressure_low]',
    };
    expect(found(checkVisit('linear', edits))).toEqual([]);
  });

  it('run through the checks of an installation, each finding at its setting', () => {
    const file = checkVisit('linear', { 'as_left.protection.overload.trip': '5 A' });
    const own = file.findings.filter(({ check }) => check === 'overload.below-running');
    expect(own.map(({ key, severity }) => `${severity} ${key}`)).toEqual(['error as_left.protection.overload.trip']);
    expect(own[0]?.message).toMatch(/^As left: /);
  });

  it('with a note at the item are told as a note', () => {
    const file = checkVisit('linear', {
      'as_left.start.override': '8 h',
      'row settings.start.override': '{ value: 8 h, note: agreed with the office }',
    });
    const own = file.findings.filter(({ check }) => check === 'readings.as-left-differs');
    expect(own.map(({ severity }) => severity)).toEqual(['note']);
    expect(own[0]?.message).toContain('agreed with the office');
  });

  it('keep the zero of a pressure where the readings count from another one', () => {
    const edits = { conventions: '{ pressure: absolute }', 'as_left.protection.intake_pressure_low.trip': '17 bar' };
    const file = checkVisit('linear', edits);
    expect(file.findings.map(({ check, key }) => `${check} ${key}`)).toContain(
      'readings.as-left-differs as_left.protection.intake_pressure_low.trip',
    );
  });
});

describe('hold points', () => {
  it('are open, and no error, as long as nothing after them was done', () => {
    const file = checkVisit('linear', { readings: '[]', as_left: '{}' });
    expect(found(file)).toEqual(['warning readings.missing']);
    expect(file.findings[0]?.message).toContain("'running_in.hold'");
  });
});

describe('a visit to a file that has errors in its writing', () => {
  let file: CheckedFile;
  beforeAll(() => {
    file = checkVisit('linear', { installation: 'equipment/plunger-44.yaml' });
  });

  it('is judged by nothing, and says so', () => {
    expect(found(file)).toContain('error reference.wrong-kind');
    expect(file.statuses.get('readings.out-of-limit')).toEqual({ status: 'not_run', missing: ['installation'] });
  });
});

describe('a document with entries laid over', () => {
  it('reads back as it was, but for them', () => {
    const text = [
      "a: { b: 'x: y', c: [ 1 m, { d: '# no' } ], e: {} }",
      'folded: >',
      '  two',
      '  lines',
      'none:',
      '"odd key": yes',
    ].join('\n');
    const again = readDocument('x.yaml', overlaid(readDocument('x.yaml', text), new Map([['a.f.g', '5 A']])));
    const at = (key: string) => again.tree.scalar(again.tree.find(key));
    expect([at('a.b'), at('a.c[0]'), at('a.c[1].d'), at('folded'), at('odd key'), at('a.f.g')]).toEqual([
      ...['x: y', '1 m', '# no', 'two lines\n', 'yes', '5 A'],
    ]);
    expect(again.problems.filter(({ check }) => check === 'document.syntax')).toEqual([]);
  });
});

describe('times', () => {
  it.each([
    ['2026-03-20T09:40', true, 580],
    ['2026-03-20 09:40:11', true, 580],
    ['09:40', false, 580],
  ])('%s is one', (text, hasDate, minutes) => {
    const moment = momentOf(text);
    expect([moment?.hasDate, (moment?.minutes ?? 0) % 1440]).toEqual([hasDate, minutes]);
  });

  it.each(['', 'noon', '2026-02-30', '25:00', '9.40', '20.3.2026'])("'%s' is none", (text) => {
    expect(momentOf(text)).toBeUndefined();
  });
});

describe('what a saved file holds', () => {
  it('is told in linear time, whatever stands in it', () => {
    for (const text of ['<pre>'.repeat(50_000), '<script'.repeat(50_000), '{'.repeat(50_000), '\u0000', '<']) {
      expect(savedIn(text)).toHaveProperty('refused');
    }
  });
});
