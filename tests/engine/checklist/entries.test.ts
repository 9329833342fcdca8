import { describe, expect, it, test } from 'vitest';
import {
  type Entry,
  judgeStep,
  progressOf,
  readDocument,
  readingsText,
  readNumber,
  readReadings,
  type Step,
  shutBy,
  withUnit,
} from '../../../server/src/engine/index.ts';
import { checklistOf, stepNamed, stepsOf } from './project.ts';

const LIST = checklistOf();
const step = (id: string): Step => stepNamed(LIST, id);

describe('a reading', () => {
  test.each([
    ['1.2 Gohm', 'Mohm', 1200, undefined],
    ['> 2 Gohm', 'Mohm', 2000, 'above'],
    ['250', 'Mohm', 250, undefined],
    ['145 psi(g)', 'bar(g)', 9.997, undefined],
    ['50 degF', 'degC', 10, undefined],
    ['37 lbf.ft', 'N.m', 50.17, undefined],
    ['≤ 3', 'pieces', 3, 'below'],
  ] as const)('%s at a step in %s', (text, unit, number, beyond) => {
    const read = readNumber(text, unit);
    expect(read.number).toBeCloseTo(number, 2);
    expect(read).toMatchObject({ beyond });
  });

  test.each([
    ['12,5', 'Mohm'],
    ['12 bar', 'Mohm'],
    ['good', 'Mohm'],
    ['5 bar(a)', 'bar(g)'],
    ['5 turns', 'pieces'],
  ])('%s is none at a step in %s', (text, unit) => {
    expect(readNumber(text, unit).fault).toMatch(/\.$/);
  });

  it('gets its unit only where it has none', () => {
    expect(withUnit('250', 'Mohm')).toBe('250 Mohm');
    expect(withUnit('>250', 'Mohm')).toBe('> 250 Mohm');
    expect(withUnit('1.2 Gohm', 'Mohm')).toBe('1.2 Gohm');
    expect(withUnit('LM-0472', undefined)).toBe('LM-0472');
  });
});

describe('judging', () => {
  test.each([
    ['inspection.motor.insulation', ['250'], 'inside'],
    ['inspection.motor.insulation', ['199'], 'outside'],
    ['inspection.motor.insulation', ['> 100'], 'unsure'],
    ['inspection.motor.insulation', ['< 100'], 'outside'],
    ['inspection.motor.insulation', [' '], 'empty'],
    ['running_in.motor.head_flange', ['53'], 'outside'],
    ['running_in.motor.head_flange', ['37 lbf.ft'], 'inside'],
    ['inspection.motor.serial', ['lm-0472'], 'inside'],
    ['inspection.motor.serial', ['LM-0473'], 'differs'],
    ['settings.protection.overload.trip', ['15'], 'inside'],
    ['settings.protection.overload.trip', ['16'], 'differs'],
    ['settings.protection.overload.trip', ['19'], 'outside'],
    ['start.tubing_pressure', ['12'], 'noted'],
    ['inspection.motor.winding_resistance', ['6', '6', '6.1'], 'inside'],
    ['inspection.motor.winding_resistance', ['6', '6', '6.4'], 'outside'],
    ['inspection.motor.winding_resistance', ['6', '6.4'], 'inside'],
  ] as const)('%s with %j is %s', (id, texts, verdict) => {
    expect(judgeStep(step(id), texts).verdict).toBe(verdict);
  });

  it('brings insulation of a winding to 40 degC, and takes the worse', () => {
    const motor = step('inspection.motor.insulation');
    expect(judgeStep(motor, ['800'], 20).verdict).toBe('inside');
    expect(judgeStep(motor, ['799'], 20).verdict).toBe('outside');
    expect(judgeStep(motor, ['150'], 60).verdict).toBe('outside');
    expect(judgeStep(step('inspection.cable.insulation'), ['400'], 10).messages).toEqual([]);
  });
});

describe('progress', () => {
  it('counts what is done, and keeps a stage shut behind an unsigned hold', () => {
    const entries = new Map<string, Entry>([
      ['surface.lockout', { done: true }],
      ['inspection.motor.winding_resistance', { values: ['6', '6'] }],
      ['cover.crew', { values: ['one'] }],
      ['running_in.hold', { by: 'A. Foreman' }],
    ]);
    expect(progressOf(stepsOf(LIST), entries)).toMatchObject({ done: 2, openHolds: 5 });
    const stage = LIST.stages.find(({ id }) => id === 'running_in')?.steps ?? [];
    expect(shutBy(stage, 'running_in.splice', entries)?.id).toBe('running_in.hold');
    expect(shutBy(stage, 'running_in.barriers', entries)).toBeUndefined();
    entries.set('running_in.hold', { by: 'A. Foreman', at: '09:40' });
    expect(shutBy(stage, 'running_in.splice', entries)).toBeUndefined();
  });
});

describe('a readings document', () => {
  /** Something at every step, with what YAML would take for something else. */
  const entries = new Map<string, Entry>(
    stepsOf(LIST)
      .filter(({ kind }) => kind !== 'caution')
      .map(({ id, kind, fields = [''] }): [string, Entry] => {
        if (kind === 'do') return [id, { done: true, at: '09:40', note: '# no: comment\n"quoted"' }];
        if (kind === 'hold') return [id, { by: 'yes', at: '2026-03-20T09:40' }];
        return [id, { values: fields.map((_, index) => String(index + 1)), at: '10:00', instrument: '*anchor' }];
      }),
  );

  it('is read by the engine, and gives the entries back', () => {
    const text = readingsText(LIST, entries);
    const { problems } = readDocument('/p/r.yaml', text);
    expect(problems.filter(({ check }) => check === 'document.syntax' || check === 'document.unknown-key')).toEqual([]);
    const read = readReadings(text, LIST);
    if ('refused' in read) throw new Error(read.refused);
    expect(read.unknown).toEqual([]);
    expect(read.entries.size).toBe(entries.size);
    expect(readingsText(LIST, read.entries)).toBe(text);
  });

  it('refuses what it is not', () => {
    expect(readReadings('document: pump/1', LIST)).toHaveProperty('refused');
    expect(readReadings('', LIST)).toHaveProperty('refused');
  });
});

describe('where the file does not say', () => {
  it('cautions as if the well were sour, the area hazardous, and the unit restarted by itself', () => {
    const silent = checklistOf({
      'wells/t2-07.yaml': [
        [', h2s: 40 ppm', ''],
        [', hazardous_area: zone 2', ''],
        ['mode: automatic, ', ''],
      ],
    });
    for (const id of [
      'before_leaving.caution_sour_unknown',
      'surface.caution_area_unknown',
      'start.caution_automatic_unknown',
    ])
      expect(stepNamed(silent, id).kind).toBe('caution');
  });
});
