import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { KINDS, type KindName } from '../../../server/src/engine/quantity/kinds.ts';
import { parseQuantity } from '../../../server/src/engine/quantity/parse.ts';
import type { QuantityProblem } from '../../../server/src/engine/quantity/problems.ts';
import { tableUnits } from '../../../server/src/engine/quantity/symbols.ts';
import type { Quantity } from '../../../server/src/engine/quantity/types.ts';
import { examples } from '../../support/chance.ts';

function read(text: string, kind: KindName): Quantity {
  const { quantity, problems } = parseQuantity(text, KINDS[kind]);
  expect(problems, text).toEqual([]);
  return quantity!;
}

function refuse(text: string, kind: KindName): QuantityProblem {
  const { quantity, problems } = parseQuantity(text, KINDS[kind]);
  expect(quantity, text).toBeUndefined();
  expect(problems).toHaveLength(1);
  return problems[0]!;
}

describe('values', () => {
  test.each<[string, KindName, number]>([
    ['1850 m', 'depth', 1850],
    ['5m', 'length', 5],
    ['  5 m  ', 'length', 5],
    ['+5 m', 'length', 5],
    ['-5 m', 'length', -5],
    ['−5 m', 'length', -5],
    ['010 m', 'length', 10],
    ['1. m', 'length', 1],
    ['.5 m', 'length', 0.5],
    ['-.5 m', 'length', -0.5],
    ['1.2e3 m', 'length', 1200],
    ['1.2E-3 m', 'length', 0.0012],
    ['1e−3 m', 'length', 0.001],
    ['1.850 m', 'length', 1.85],
    ['38 mm', 'length', 0.038],
    ['2 7/8 in', 'length', 0.073025],
    ['2-7/8 in', 'length', 0.073025],
    ['-2 7/8 in', 'length', -0.073025],
    ['7/8 in', 'length', 0.022225],
    ['7"', 'length', 0.1778],
    ['62 bar', 'pressure', 62e5],
    ['5 kgf/cm2', 'pressure', 490332.5],
    ['58 degC', 'temperature', 58],
    ['58 °C', 'temperature', 58],
    ['58℃', 'temperature', 58],
    ['212 degF', 'temperature', 100],
    ['300 K', 'temperature', 300 - 273.15],
    ['10 K', 'temperature_difference', 10],
    ['10 delta degC', 'temperature_difference', 10],
    ['10 Δ°C', 'temperature_difference', 10],
    ['18 delta degF', 'temperature_difference', 10],
    ['3 degC/100 m', 'temperature_gradient', 0.03],
    ['86400 m3/d', 'volume_rate', 1],
    ['86400 m³/d', 'volume_rate', 1],
    ['86400 m^3/d', 'volume_rate', 1],
    ['0.864 m3/d/bar', 'productivity_index', 1e-10],
    ['0.864 m3/(d.bar)', 'productivity_index', 1e-10],
    ['18 m3/m3', 'gas_oil_ratio', 18],
    ['4.8 /min', 'stroke_rate', 0.08],
    ['4.8/min', 'stroke_rate', 0.08],
    ['4.8 1/min', 'stroke_rate', 0.08],
    ['6/min', 'stroke_rate', 0.1],
    ['6 1/min', 'stroke_rate', 0.1],
    ['4.8 min-1', 'stroke_rate', 0.08],
    ['4.8 min^-1', 'stroke_rate', 0.08],
    ['4.8 min⁻¹', 'stroke_rate', 0.08],
    ['3000 rpm', 'rotational_speed', 50],
    ['50 Hz', 'rotational_speed', 50],
    ['40 %', 'ratio', 0.4],
    ['40%', 'ratio', 0.4],
    ['5 ppm', 'ratio', 5e-6],
    ['0.85', 'plain', 0.85],
    ['85 %', 'plain', 0.85],
    ['12', 'count', 12],
    ['0.72', 'gas_gravity', 0.72],
    ['3 deg/30 m', 'dogleg', 0.1],
    ['1.5 %/K', 'derating_per_temperature', 0.015],
    ['1 %/100 m', 'derating_per_length', 1e-4],
    ['5 Mohm.km', 'insulation_length', 5e9],
    ['5 MΩ·km', 'insulation_length', 5e9],
    ['5 MΩ km', 'insulation_length', 5e9],
    ['0.3 mH/km', 'inductance_per_length', 3e-7],
    ['0.3 µH/m', 'inductance_per_length', 3e-7],
    ['0.3 μH/m', 'inductance_per_length', 3e-7],
    ['100 N·m', 'torque', 100],
    ['100 N m', 'torque', 100],
    ['12 cP', 'viscosity', 0.012],
    ['12 cSt', 'viscosity', 12e-6],
    ['16 mm2', 'conductor_size', 16e-6],
    ['10 degAPI', 'oil_gravity', 999.016],
    ['1 SG', 'oil_gravity', 999.016],
    ['880 kg/m3', 'oil_gravity', 880],
    ['400 V', 'voltage', 400],
    ['40 kVA', 'apparent_power', 40e3],
    ['24 h', 'duration', 86400],
    ['7 mm/s', 'vibration', 0.007],
    ['10 V/Hz', 'voltage_per_frequency', 10],
  ])('%s as %s', (text, kind, value) => {
    expect(read(text, kind).value).toBeCloseTo(value, 14);
  });

  test.each(['4/0 AWG', '0000 AWG'])('%s is gauge -3', (text) => {
    const quantity = read(text, 'conductor_size');
    expect(quantity.number).toBe(-3);
    expect(quantity.value).toBeCloseTo(107.219e-6, 8);
  });

  test('1/0 and 0 AWG are one size', () => {
    expect(read('1/0 AWG', 'conductor_size').value).toBe(read('0 AWG', 'conductor_size').value);
  });

  test('a value does not depend on the prefix chosen', () => {
    expect(read('38 mm', 'length').value).toBe(read('0.038 m', 'length').value);
    expect(read('2.875 in', 'length').value).toBe(read('73.025 mm', 'length').value);
  });

  test('no-break spaces are spaces', () => {
    expect(read('5\u00a0m', 'length').value).toBe(5);
    expect(read('5\u202fm3/d', 'volume_rate').unit).toBe('m3/d');
  });

  test('a kinematic viscosity is marked', () => {
    expect(read('12 cSt', 'viscosity').alternate).toBe('kinematic');
    expect(read('12 cP', 'viscosity').alternate).toBeUndefined();
  });

  test('half a unit of the last digit is the resolution', () => {
    expect(read('1395 m', 'depth').resolution).toBe(0.5);
    expect(read('62.0 bar', 'pressure').resolution).toBeCloseTo(5e3, 9);
    expect(read('1.2e3 m', 'depth').resolution).toBe(50);
    expect(read('7/8 in', 'length').resolution).toBeCloseTo(0.0254 / 16, 12);
  });
});

describe('pressure references', () => {
  test.each(['62 bar(g)', '62 bar (g)', '62 barg', '62 bar g', '62 bar gauge'])('%s is gauge', (text) => {
    expect(read(text, 'pressure')).toMatchObject({ value: 62e5, unit: 'bar', reference: 'gauge' });
  });

  test.each(['62 bar(a)', '62 bar (a)', '62 bara', '62 bar(abs)'])('%s is absolute', (text) => {
    expect(read(text, 'pressure')).toMatchObject({ value: 62e5, unit: 'bar', reference: 'absolute' });
  });

  test('psig and psia', () => {
    expect(read('29 psig', 'pressure')).toMatchObject({ unit: 'psi', reference: 'gauge' });
    expect(read('29 psia', 'any')).toMatchObject({ unit: 'psi', reference: 'absolute' });
  });

  test('a bare unit states none', () => {
    expect(read('62 bar', 'pressure').reference).toBeUndefined();
  });

  test('a difference takes none', () => {
    expect(refuse('5 barg', 'pressure_difference')).toMatchObject({
      check: 'units.rise-for-point',
      start: 2,
      end: 6,
      fixes: [{ newText: '5 bar' }],
    });
  });
});

describe('tolerances', () => {
  test.each<[string, KindName, number]>([
    ['1395 m +- 5 m', 'depth', 5],
    ['1395 m ± 5', 'depth', 5],
    ['1395 m +/- 50 cm', 'depth', 0.5],
    ['1395 m +−5m', 'depth', 5],
    ['400 V +- 10 %', 'voltage', 40],
    ['-400 V +- 10 %', 'voltage', 40],
    ['10 % +- 2 %', 'ratio', 0.02],
    ['0.85 +- 2 %', 'plain', 0.02],
    ['10 % +- 2', 'ratio', 0.02],
    ['40 degC +- 2', 'temperature', 2],
    ['40 degC +- 2 K', 'temperature', 2],
    ['212 degF +- 9 delta degF', 'temperature', 5],
    ['62 bar(g) +- 1 bar', 'pressure', 1e5],
    ['62 bar(g) +- 100 kPa', 'pressure', 1e5],
    ['30 degAPI +- 10 kg/m3', 'oil_gravity', 10],
    ['18 +- 2', 'count', 2],
    ['2 bar +- 0.1 bar = 29 psi', 'pressure', 1e4],
    ['2 bar = 29 psi +- 1 psi', 'pressure', 6894.757293168],
  ])('%s', (text, kind, tolerance) => {
    expect(read(text, kind).tolerance).toBeCloseTo(tolerance, 6);
  });

  test('a tolerance in degAPI is the width of its interval', () => {
    const [low, high] = [read('31 degAPI', 'oil_gravity').value, read('29 degAPI', 'oil_gravity').value];
    expect(read('30 degAPI +- 1', 'oil_gravity').tolerance).toBeCloseTo((high - low) / 2, 9);
  });

  test.each<[string, KindName, string]>([
    ['40 degC +- 2 degC', 'temperature', 'units.rise-for-point'],
    ['40 degC +- 4 degF', 'temperature', 'units.rise-for-point'],
    ['40 degC +- 10 %', 'temperature', 'units.wrong-dimension'],
    ['62 bar(g) +- 1 bar(g)', 'pressure', 'units.rise-for-point'],
    ['62 bar(g) +- 1 psig', 'pressure', 'units.rise-for-point'],
    ['1395 m +- 5 bar', 'depth', 'units.wrong-dimension'],
    ['880 kg/m3 +- 1 degAPI', 'oil_gravity', 'units.wrong-dimension'],
    ['12 cP +- 1 cSt', 'viscosity', 'units.wrong-dimension'],
    ['1395 m +- 5 mtr', 'depth', 'units.unknown'],
    ['1395 m +- 1,5 m', 'depth', 'units.thousands-separator'],
    ['1395 m +- -5 m', 'depth', 'document.wrong-type'],
    ['1395 m +- ', 'depth', 'document.wrong-type'],
    ['1395 m + 5 m', 'depth', 'document.wrong-type'],
    ['1395 m +- 5 m +- 5 m', 'depth', 'document.wrong-type'],
    ['1395 m +- 1e999 m', 'depth', 'document.wrong-type'],
    ['1395 m +- 1e308 km', 'depth', 'document.wrong-type'],
  ])('%s is refused', (text, kind, check) => {
    expect(refuse(text, kind).check).toBe(check);
  });
});

describe('two readings', () => {
  test.each<[string, KindName]>([
    ['2 bar = 29 psi', 'pressure'],
    ['2 bar = 29.0 psi', 'pressure'],
    ['2 bar(g) = 29 psig', 'pressure'],
    ['1395 m = 4577 ft', 'depth'],
    ['2 7/8 in = 73.0 mm', 'length'],
    ['40 degC = 104 degF', 'temperature'],
    ['10 K = 18 delta degF', 'temperature_difference'],
    ['6 AWG = 13.3 mm2', 'conductor_size'],
    ['30 degAPI = 875 kg/m3', 'oil_gravity'],
    ['12 cP = 12 mPa.s', 'viscosity'],
    ['0.5 m = 50 cm', 'length'],
  ])('%s agree', (text, kind) => {
    read(text, kind);
  });

  test('the reference of either reading holds for both', () => {
    expect(read('2 bar = 29 psig', 'pressure').reference).toBe('gauge');
  });

  test.each<[string, KindName]>([
    ['2 bar = 230 psi', 'pressure'],
    ['62 bar = 900 psi', 'pressure'],
    ['2 bar = 28.9 psi', 'pressure'],
    ['12 cP = 12 cSt', 'viscosity'],
    ['2 bar(g) = 29 psia', 'pressure'],
  ])('%s disagree', (text, kind) => {
    expect(refuse(text, kind)).toMatchObject({
      check: 'units.two-readings-disagree',
      start: 0,
      end: text.length,
    });
  });

  test('a disagreement tells both conversions and offers each reading', () => {
    const found = refuse('2 bar = 230 psi', 'pressure');
    expect(found.message).toContain('2 bar is 29.01 psi, and 230 psi is 15.86 bar');
    expect(found.fixes.map(({ kind, newText }) => [kind, newText])).toEqual([
      ['offer', '2 bar'],
      ['offer', '230 psi'],
    ]);
  });

  test.each(['2 bar =', '2 bar = bar', '2 bar = 29 psi = 200 kPa'])('%s is refused', (text) => {
    expect(refuse(text, 'pressure').check).toBe('document.wrong-type');
  });

  test('the second reading is judged as the first', () => {
    expect(refuse('2 bar = 29 m', 'pressure')).toMatchObject({ check: 'units.wrong-dimension', start: 11, end: 12 });
  });
});

describe('grouped digits', () => {
  test.each([
    ['1,850 m', ['1850 m', '1.850 m']],
    ['12,5 m', ['125 m', '12.5 m']],
    ['1 850 m', ['1850 m', '1.850 m']],
    ['1\u00a0850 m', ['1850 m', '1.850 m']],
    ["1'850 m", ['1850 m', '1.850 m']],
    ['1’850 m', ['1850 m', '1.850 m']],
    ['1_000 m', ['1000 m', '1.000 m']],
    ['1,234,567.8 m', ['12345678 m', '1234567.8 m']],
    ['1.850.000 m', ['1850000 m', '1850.000 m']],
    ['−1,5 m', ['-15 m', '-1.5 m']],
  ])('%s is not read, and both readings are offered', (text, readings) => {
    const found = refuse(text, 'length');
    expect(found).toMatchObject({ check: 'units.thousands-separator', start: 0, end: text.length - 2 });
    expect(found.fixes.map(({ newText }) => newText)).toEqual(readings);
    expect(found.fixes.every(({ kind }) => kind === 'offer')).toBe(true);
  });
});

describe('missing and unknown units', () => {
  test('a bare number says which units are usual and offers each', () => {
    const found = refuse('1850', 'depth');
    expect(found).toMatchObject({ check: 'units.missing', start: 0, end: 4 });
    expect(found.message).toBe("'1850' has no unit. A depth is due here, usually in m or ft.");
    expect(found.fixes.map(({ newText }) => newText)).toEqual(['1850 m', '1850 ft']);
  });

  test('a bare share wants its sign', () => {
    expect(refuse('0.2', 'ratio').check).toBe('units.missing');
    const [first] = refuse('0.055', 'ratio').fixes;
    expect(first).toMatchObject({ kind: 'offer', newText: '5.5 %' });
    expect(refuse('30', 'gas_oil_ratio').check).toBe('units.missing');
  });

  test.each<[string, KindName, 'mechanical' | 'offer', string[]]>([
    ['62 BAR', 'pressure', 'mechanical', ['62 bar']],
    ['62 PSIG', 'pressure', 'mechanical', ['62 psig']],
    ['12 KW', 'power', 'mechanical', ['12 kW']],
    ['8 M3/D', 'volume_rate', 'mechanical', ['8 m3/d']],
    ['8 BBL/D/PSI', 'productivity_index', 'mechanical', ['8 bbl/d/psi']],
    ['8 m3/d/mpa', 'productivity_index', 'offer', ['8 m3/d/MPa', '8 m3/d/mPa']],
    ['5 MOHM', 'resistance', 'offer', ['5 Mohm', '5 mohm']],
    ['5 MPA', 'pressure', 'offer', ['5 MPa', '5 mPa']],
    ['5 MBAR', 'pressure', 'offer', ['5 mbar']],
    ['5 OHMS', 'resistance', 'mechanical', ['5 ohm']],
    ['5 metrs', 'length', 'mechanical', ['5 m']],
    ['5 mmetre', 'length', 'offer', ['5 m']],
    ['5 kpsi', 'pressure', 'offer', ['5 psi']],
    ['5 bsr', 'pressure', 'offer', ['5 bar']],
    ['5 abr', 'pressure', 'offer', ['5 bar']],
  ])('%s is nearly a unit of %s', (text, kind, fixKind, newTexts) => {
    const found = refuse(text, kind);
    expect(found.check).toBe('units.unknown');
    expect([...found.fixes.map(({ newText }) => newText)].sort()).toEqual([...newTexts].sort());
    expect(found.fixes.every((fix) => fix.kind === fixKind)).toBe(true);
  });

  test('candidates of another dimension are told, not offered', () => {
    const found = refuse('62 BAR', 'length');
    expect(found.message).toContain('it could be bar');
    expect(found.fixes).toEqual([]);
  });

  test.each<[string, number, number]>([
    ['1395 m TVD', 7, 10],
    ['5 Ω·xyz', 4, 7],
    ['5 m/0 s', 4, 5],
    ['5 (m', 4, 4],
    ['5 m/(s', 6, 6],
    ['5 m/', 4, 4],
    ['5 m)', 3, 4],
    ['5 m22', 4, 5],
    ['5 degAPI/m', 2, 8],
    ['5 m/123456789 s', 4, 5],
  ])('%s: the part at fault is pointed at', (text, start, end) => {
    expect(refuse(text, 'any')).toMatchObject({ check: 'units.unknown', start, end });
  });

  test('a product after a quotient is refused, since it reads in two ways', () => {
    expect(refuse('0.18 m3/d.bar', 'productivity_index').message).toContain('in two ways');
  });

  test('a product of shares is no unit', () => {
    expect(refuse('5 %.deg', 'any').check).toBe('units.wrong-dimension');
    expect(refuse('5 %2', 'any').check).toBe('units.wrong-dimension');
  });

  test.each(['5 Gohm9.Gohm9.Gohm9.Gohm9', `5 ${'m'.repeat(60)}`])('%s is no unit', (text) => {
    expect(refuse(text, 'any').check).toBe('units.unknown');
  });
});

describe('wrong dimensions', () => {
  test('says what the unit measures and what is due', () => {
    const found = refuse('62 m', 'pressure');
    expect(found).toMatchObject({ check: 'units.wrong-dimension', start: 3, end: 4 });
    expect(found.message).toBe("'m' is the unit of a length. A pressure is due here, usually in bar, psi, kPa or MPa.");
  });

  test.each<[string, KindName, string[]]>([
    ['20 m', 'duration', ['20 min']],
    ['100 ft.lb', 'torque', ['100 ft.lbf']],
    ['5 kg/cm2', 'pressure', ['5 kgf/cm2']],
    ['20 kW', 'apparent_power', ['20 kVA']],
    ['0.5 g', 'acceleration', ['0.5 gn']],
    ['5 rpm', 'stroke_rate', ['5 /min']],
    ['50 rpm', 'frequency', []],
    ['50 /min', 'frequency', []],
    ['18 %', 'gas_oil_ratio', []],
    ['20 deg', 'ratio', []],
    ['5 m', 'count', []],
    ['50 m/m', 'ratio', []],
  ])('%s for %s', (text, kind, offers) => {
    const found = refuse(text, kind);
    expect(found.check).toBe('units.wrong-dimension');
    expect(found.fixes.map(({ newText }) => newText)).toEqual(offers);
  });
});

describe('temperatures: points and differences', () => {
  test.each<[string, KindName, string]>([
    ['40 degC', 'temperature_difference', '40 K'],
    ['40 °F', 'temperature_difference', '40 delta degF'],
    ['40 delta degC', 'temperature', '40 degC'],
    ['40 delta degF', 'temperature', '40 degF'],
  ])('%s for a %s', (text, kind, offered) => {
    expect(refuse(text, kind)).toMatchObject({
      check: 'units.rise-for-point',
      fixes: [{ kind: 'offer', newText: offered }],
    });
  });
});

describe('what is no quantity', () => {
  test.each(['', '   ', 'bar', 'hello', '.', '-', 'Infinity m', 'NaN m', '.inf', '# 5 m', '= 5 m', 'e5 m'])(
    '"%s" does not begin with a number',
    (text) => {
      expect(refuse(text, 'length').check).toBe('document.wrong-type');
    },
  );

  test.each<[string, KindName, string]>([
    ['1e999 m', 'length', 'out of range'],
    ['1e308 km', 'length', 'out of range'],
    [`${'9'.repeat(200)}e200 m`, 'length', 'out of range'],
    ['1/0 m', 'length', 'divides by zero'],
    ['-200 degAPI', 'oil_gravity', 'out of range'],
    ['5/0 AWG', 'conductor_size', 'wire gauges'],
    ['-1 AWG', 'conductor_size', 'wire gauges'],
    ['57 AWG', 'conductor_size', 'wire gauges'],
    ['6.5 AWG', 'conductor_size', 'wire gauges'],
    ['-4/0 AWG', 'conductor_size', 'wire gauges'],
    ['2 4/0 AWG', 'conductor_size', 'wire gauges'],
    [`${'9'.repeat(300)} m`, 'length', 'too long'],
  ])('%s cannot be computed with', (text, kind, reason) => {
    const found = refuse(text, kind);
    expect(found.check).toBe('document.wrong-type');
    expect(found.message).toContain(reason);
  });
});

describe('properties', () => {
  const kinds = fc.constantFrom(...Object.values(KINDS));
  const fragments = fc.constantFrom(
    ..."0123456789.,-+=/±% '_eE²µΩ°()".split(''),
    'bar',
    'm',
    ' AWG',
    '+-',
    '7/8',
    'degC',
    '(g)',
    'K',
    '\u2212',
    '\u0000',
    '😀',
  );
  const nearQuantities = fc.array(fragments, { maxLength: 14 }).map((parts) => parts.join(''));

  test('any text gives a finite quantity or problems whose spans lie inside it', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), nearQuantities), kinds, (text, kind) => {
        const { quantity, problems } = parseQuantity(text, kind);
        expect(problems.length).toBe(quantity === undefined ? 1 : 0);
        for (const { start, end } of problems) expect(0 <= start && start <= end && end <= text.length).toBe(true);
        if (quantity !== undefined)
          for (const number of [quantity.value, quantity.number, quantity.tolerance, quantity.resolution])
            expect(Number.isFinite(number)).toBe(true);
      }),
      examples(300),
    );
  });

  test('a mechanical fix leaves no problem behind', () => {
    const units = fc.constantFrom(...tableUnits().map(({ symbol }) => symbol));
    const spoilt = fc
      .tuple(units, fc.constantFrom('upper', 'lower'))
      .map(([symbol, letters]) => (letters === 'upper' ? symbol.toUpperCase() : symbol.toLowerCase()));
    fc.assert(
      fc.property(spoilt, kinds, (unit, kind) => {
        for (const { fixes } of parseQuantity(`5 ${unit}`, kind).problems)
          for (const fix of fixes)
            if (fix.kind === 'mechanical') expect(parseQuantity(fix.newText, kind).problems).toEqual([]);
      }),
      examples(300),
    );
  });

  test('a text of a million characters is refused', () => {
    for (const text of ['1'.repeat(1e6), '1,'.repeat(5e5), `5 ${'m/'.repeat(5e5)}`, ' '.repeat(1e6)])
      expect(parseQuantity(text, KINDS.length).quantity).toBeUndefined();
  });
});
