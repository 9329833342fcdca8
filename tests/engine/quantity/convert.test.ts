import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  convertText,
  fromAbsolute,
  fromUnit,
  sameNumberInOtherUnits,
  toAbsolute,
  toUnit,
} from '../../../server/src/engine/quantity/convert.ts';
import { formatMeasure, formatNumber, measureIn } from '../../../server/src/engine/quantity/format.ts';
import { KINDS, type KindName, kindNamed, misfit } from '../../../server/src/engine/quantity/kinds.ts';
import { parseQuantity } from '../../../server/src/engine/quantity/parse.ts';
import { findUnit } from '../../../server/src/engine/quantity/units.ts';
import { examples } from '../../support/chance.ts';

describe('kinds', () => {
  test('each has usual units that fit it, and an internal unit of factor 1', () => {
    for (const kind of Object.values(KINDS)) {
      for (const usual of kind.usual)
        expect(misfit(kind, findUnit(usual)!.unit), `${kind.name}: ${usual}`).toBe(undefined);
      expect(findUnit(kind.internal)!.unit.factor, kind.name).toBe(1);
      expect(kindNamed(kind.name)).toBe(kind);
    }
  });

  test.each(['', 'Pressure', 'constructor', '__proto__'])('"%s" is none', (name) => {
    expect(kindNamed(name)).toBeUndefined();
  });
});

describe('converting', () => {
  test.each<[KindName, number, string, number]>([
    ['pressure', 1e5, 'psi', 14.503773773],
    ['temperature', 100, 'degF', 212],
    ['temperature', 0, 'K', 273.15],
    ['temperature_difference', 10, 'delta degF', 18],
    ['conductor_size', 13.3017e-6, 'AWG', 6.0],
    ['oil_gravity', 999.016, 'degAPI', 10],
    ['plain', 0.85, '', 0.85],
    ['viscosity', 12e-6, 'cSt', 12],
  ])('%s %d in %s is %d', (kind, value, unit, number) => {
    expect(toUnit(value, KINDS[kind], unit)).toBeCloseTo(number, 4);
    expect(fromUnit(number, KINDS[kind], unit)! / (value || 1)).toBeCloseTo(value === 0 ? 0 : 1, 4);
  });

  test('a unit that does not fit gives nothing', () => {
    expect(toUnit(1, KINDS.pressure, 'm')).toBeUndefined();
    expect(fromUnit(1, KINDS.pressure, 'nonsense')).toBeUndefined();
    expect(toUnit(1, KINDS.temperature_difference, 'degC')).toBeUndefined();
    expect(fromUnit(-140, KINDS.oil_gravity, 'degAPI')).toBeNaN();
    expect(toUnit(0, KINDS.oil_gravity, 'degAPI')).toBeNaN();
  });

  test('there and back is the same in every usual unit', () => {
    const places = Object.values(KINDS).flatMap((kind) => kind.usual.map((unit) => [kind, unit] as const));
    const numbers = fc.double({ min: 1e-3, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...places), numbers, ([kind, unit], size) => {
        const number = unit === 'AWG' ? Math.min(size, 50) : size;
        const back = toUnit(fromUnit(number, kind, unit)!, kind, unit)!;
        expect(Math.abs(back - number)).toBeLessThanOrEqual(1e-9 * Math.max(number, 300));
      }),
      examples(300),
    );
  });

  test('text written in a unit reads back as the value', () => {
    const places = Object.values(KINDS).flatMap((kind) => kind.usual.map((unit) => [kind, unit] as const));
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.integer({ min: 1, max: 40 }), ([kind, unit], number) => {
        const text = formatMeasure(fromUnit(number, kind, unit)!, kind, unit);
        const { quantity } = parseQuantity(text, kind);
        expect(quantity?.number, text).toBe(number);
      }),
      examples(300),
    );
  });

  test('the same number in the other usual units', () => {
    const meanings = sameNumberInOtherUnits(1850, KINDS.pressure);
    expect(meanings.map(({ unit }) => unit)).toEqual(['bar', 'psi', 'kPa', 'MPa']);
    expect(meanings[1]!.value).toBeCloseTo(1850 * 6894.757293, 0);
    expect(sameNumberInOtherUnits(-140, KINDS.oil_gravity).map(({ unit }) => unit)).toEqual(['kg/m3', 'SG']);
  });

  test.each<[string, KindName, string[]]>([
    ['62 bar(g)', 'pressure', ['899.2 psi(g)', '6200 kPa(g)', '6.2 MPa(g)']],
    ['30 Mohm', 'resistance', []],
    ['12 cSt', 'viscosity', []],
    ['12 cP', 'viscosity', ['12 mPa.s']],
    ['250 kcmil', 'conductor_size', ['126.7 mm2']],
    ['211.6 kcmil', 'conductor_size', ['107.2 mm2', '4/0 AWG']],
    ['0 m', 'depth', ['0 ft']],
    ['12', 'count', []],
  ])('%s in a hover', (text, kind, others) => {
    expect(convertText(parseQuantity(text, KINDS[kind]).quantity!)).toEqual(others);
  });
});

describe('gauge and absolute', () => {
  const atmosphere = 101325;
  const read = (text: string) => parseQuantity(text, KINDS.pressure).quantity!;

  test('a stated reference holds, a bare one is as told', () => {
    expect(toAbsolute(read('2 barg'), 'absolute', atmosphere)).toBe(301325);
    expect(toAbsolute(read('2 bara'), 'gauge', atmosphere)).toBe(200000);
    expect(toAbsolute(read('2 bar'), 'gauge', atmosphere)).toBe(301325);
    expect(toAbsolute(read('2 bar'), 'absolute', atmosphere)).toBe(200000);
  });

  test('and back', () => {
    expect(fromAbsolute(301325, 'gauge', atmosphere)).toBe(200000);
    expect(fromAbsolute(301325, 'absolute', atmosphere)).toBe(301325);
  });
});

describe('numbers for a reader', () => {
  test.each([
    [0, '0'],
    [-0, '0'],
    [1200, '1200'],
    [0.421, '0.421'],
    [0.42104, '0.421'],
    [899.234, '899.2'],
    [12345.6, '12346'],
    [9999999.4, '9999999'],
    [1e7, '1e7'],
    [12345678, '1.235e7'],
    [0.0001, '0.0001'],
    [0.00012346, '0.0001235'],
    [0.00001, '1e-5'],
    [-1.5, '-1.5'],
    [9.9999, '10'],
    [100, '100'],
    [Number.POSITIVE_INFINITY, 'Infinity'],
  ])('%d is %s', (number, text) => {
    expect(formatNumber(number)).toBe(text);
  });

  test('digits can be asked for', () => {
    expect(formatNumber(Math.PI, { significant: 2 })).toBe('3.1');
  });

  test.each<[number, KindName, string, string]>([
    [62e5, 'pressure', 'bar', '62 bar'],
    [1041.7, 'voltage', 'V', '1042 V'],
    [12.34, 'voltage', 'V', '12.34 V'],
    [0.4, 'ratio', '%', '40 %'],
    [0.85, 'plain', '', '0.85'],
    [5, 'length', 'bar', '5 m'],
    [1e-6, 'conductor_size', 'AWG', '1 mm2'],
    [200e-6, 'conductor_size', 'AWG', '200 mm2'],
    [107.2193e-6, 'conductor_size', 'AWG', '4/0 AWG'],
    [13.30177e-6, 'conductor_size', 'AWG', '6 AWG'],
  ])('%d of %s in %s is %s', (value, kind, unit, text) => {
    expect(formatMeasure(value, KINDS[kind], unit)).toBe(text);
  });

  test('a pressure shows its reference', () => {
    expect(formatMeasure(62e5, KINDS.pressure, 'bar', 'gauge')).toBe('62 bar(g)');
    expect(formatMeasure(62e5, KINDS.pressure, 'psi', 'absolute')).toBe('899.2 psi(a)');
  });
});

describe('a measure as it is written', () => {
  test.each([
    ['17 bar(g)', 17, 'bar(g)'],
    ['-0.5 degC', -0.5, 'degC'],
    ['2.6', 2.6, ''],
  ])('%s is taken apart again', (text, number, unit) => {
    expect(measureIn(text)).toEqual({ number, unit });
  });
});
