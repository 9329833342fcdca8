import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../server/src/engine/quantity/kinds.ts';
import { parseQuantity } from '../../server/src/engine/quantity/parse.ts';
import { toInternal } from '../../server/src/engine/quantity/scale.ts';
import { tableUnits } from '../../server/src/engine/quantity/symbols.ts';
import type { Dimension, Unit } from '../../server/src/engine/quantity/types.ts';
import { COMMON_COMPOUNDS } from '../../server/src/engine/quantity/unit-table.ts';
import { findUnit } from '../../server/src/engine/quantity/units.ts';

const GNU_UNITS = '/usr/bin/units';

/** Our symbols that GNU units spells otherwise. Any other must be its own symbol too, or the test fails. */
const GNU_NAMES: Readonly<Record<string, string>> = {
  kft: '1000 foot',
  in: 'inch',
  kcmil: '1000 circularmil',
  l: 'liter',
  ml: 'milliliter',
  // Sm3 is one symbol of ours; split into a unit and a power it is a cubed metre all the same.
  Sm: 'm',
  Sm3: 'm^3',
  bbl: '(42 gallon)',
  scf: 'ft^3',
  gal: 'gallon',
  t: 'tonne',
  ppg: 'lb/gallon',
  // The density of water at 60 degF in the customary unit, from memory: good to six digits.
  SG: '62.3664 lb/ft^3',
  min: 'minute',
  h: 'hour',
  d: 'day',
  rpm: '1/minute',
  K: 'kelvin',
  degC: 'kelvin',
  degF: '(5/9) kelvin',
  'delta degC': 'kelvin',
  'delta degF': '(5/9) kelvin',
  klbf: '1000 lbf',
  gpm: 'gallon/minute',
  bpd: '42 gallon/day',
  gn: 'gravity',
  VA: 'V A',
  kVA: 'kV A',
  MVA: 'MV A',
  deg: 'degree',
  rad: 'radian',
  '%': 'percent',
};

/** Compounds that are worked out when they are met, beside those that are prepared. */
const OTHER_COMPOUNDS: readonly string[] = [
  ...['cm2', 'in2', 'ft2', 'cm3', 'in3', 'lb/ft3', 'lb/bbl', 'bar/m', 'bar/100 m', 'psi/100 ft'],
  ...['MPa/km', 'm3/s', 'bbl/h', 'stb/d', 'l/min', 'gal/min', 'm3/d/kPa', 'm3/d/MPa', 'm3/s/Pa', 'Sm3/Sm3'],
  ...['scf/stb', 'Pa.s', 'mm2/s', 'm2/s', 'ft/min', 'in/s', 'm/min', 'm/s2', 'ft/s2', '/s'],
  ...['1/s', '/h', '/d', 'kN.m', 'lbf.in', 'kgf.m', 'N/m', 'kN/m', 'lbf/ft', 'V/m'],
  ...['V/100 m', 'V/kft', 'V/Hz', 'V.s', 'ohm/m', 'mohm/m', 'ohm/1000 ft', 'H/m', 'uH/m', 'mH/kft'],
  ...['mH/1000 ft', 'ohm.m', 'Gohm.km', 'Mohm.kft', 'deg/m', 'K/m', 'K/100 m', 'degC/km', 'degC/100 m', 'degF/ft'],
  ...['degF/100 ft', 'degC/m', '1/K', '/K', '%/degC', '%/degF', '%/1000 ft', '%/m', '1/m', '/m'],
  ...['%/km'],
];

const SIX_DIGITS = 1e-5;
const ALL_DIGITS = 1e-12;

function available(): boolean {
  const isThere = spawnSync(GNU_UNITS, ['--version']).status === 0;
  if (!isThere) console.warn(`${GNU_UNITS} is not installed (Debian package "units"): the comparison cannot run.`);
  return isThere;
}

const canRun = available();

/** Converts each pair with GNU units, in one process. */
function gnuUnits(pairs: readonly (readonly [from: string, to: string])[]): readonly number[] {
  const input = pairs.map(([from, to]) => `${from}\n${to}\n`).join('');
  const run = spawnSync(GNU_UNITS, ['--terse', '--digits', '17'], { input, encoding: 'utf8' });
  const lines = run.stdout.trim().split('\n');
  expect(lines, run.stdout).toHaveLength(pairs.length);
  return lines.map(Number);
}

function gnuName(symbol: string): string {
  return symbol
    .replaceAll('.', ' * ')
    .replace(/(\d+) ([A-Za-z]+)/g, '($1 * $2)')
    .replace(/([A-Za-z%]+)(-?\d)?/g, (_, unit: string, power: string | undefined) =>
      power === undefined ? `(${GNU_NAMES[unit] ?? unit})` : `(${GNU_NAMES[unit] ?? unit})^${power}`,
    )
    .replace(/^\//, '1/');
}

function internalUnit({ length, mass, time, current, temperature }: Dimension, symbol: string): string {
  const angle = /\b(deg|rad)\b/.test(symbol) ? 'degree' : '1';
  return `${angle} m^${length} kg^${mass} s^${time} A^${current} K^${temperature}`;
}

function isFactor(unit: Unit): boolean {
  return unit.scale !== 'api' && unit.scale !== 'awg';
}

function nearly(actual: number, expected: number, tolerance: number): boolean {
  return Math.abs(actual / expected - 1) <= tolerance;
}

test('GNU units is there where it must be', () => {
  if (process.env.CI === 'true') expect(canRun, 'install the Debian package "units"').toBe(true);
});

describe.runIf(canRun)('against GNU units', () => {
  const units = tableUnits().filter(isFactor);

  function unitsThatDiffer(times: number): readonly string[] {
    const names = units.map(({ symbol }) => GNU_NAMES[symbol] ?? symbol);
    const factors = gnuUnits(units.map((unit, at) => [names[at]!, internalUnit(unit.dimension, unit.symbol)]));
    const tolerance = (symbol: string): number => (symbol === 'SG' ? SIX_DIGITS : ALL_DIGITS);
    return units
      .map(({ symbol }) => symbol)
      .filter((symbol, at) => !nearly(units[at]!.factor * times, factors[at]!, tolerance(symbol)));
  }

  test('every unit of the table has its factor and dimension', () => {
    expect(units.length).toBeGreaterThan(80);
    expect(unitsThatDiffer(1)).toEqual([]);
  });

  test('a factor wrong by one per cent would be seen, in each of them', () => {
    expect(unitsThatDiffer(1.01)).toHaveLength(units.length);
  });

  test('compounds, prepared or worked out, have their factors and dimensions', () => {
    const units = [...COMMON_COMPOUNDS, ...OTHER_COMPOUNDS].map((compound) => findUnit(compound)!.unit);
    const factors = gnuUnits(units.map(({ symbol, dimension }) => [gnuName(symbol), internalUnit(dimension, symbol)]));
    const wrong = units.filter(({ factor }, at) => !nearly(factor, factors[at]!, ALL_DIGITS));
    expect(wrong.map(({ symbol }) => symbol)).toEqual([]);
  });

  test.each([
    ['degC', 'tempC', [-40, 0, 37.5, 232.2]],
    ['degF', 'tempF', [-40, 32, 205, 450]],
    ['K', 'tempK', [250, 273.15, 400]],
  ] as const)('temperatures in %s', (symbol, gnu, temperatures) => {
    const expected = gnuUnits(temperatures.map((number) => [`${gnu}(${number})`, 'tempC']));
    for (const [at, number] of temperatures.entries())
      expect(toInternal(findUnit(symbol)!.unit, number, KINDS.temperature)).toBeCloseTo(expected[at]!, 9);
  });

  test('wire gauges from 4/0 to 40', () => {
    const gauges = Array.from({ length: 44 }, (_, at) => at - 3);
    const diameters = gnuUnits(gauges.map((gauge) => [`wiregauge(${gauge})`, 'm']));
    for (const [at, gauge] of gauges.entries()) {
      const area = parseQuantity(`${gauge > 0 ? gauge : `${1 - gauge}/0`} AWG`, KINDS.conductor_size).quantity!.value;
      expect(nearly(area, (Math.PI / 4) * diameters[at]! ** 2, ALL_DIGITS), `${gauge} AWG`).toBe(true);
    }
  });

  test('API gravities, which GNU units counts from water of 1 g/cm3', () => {
    const degrees = [0, 10, 30, 45.5];
    const densities = gnuUnits(degrees.map((number) => [`apidegree(${number})`, 'kg/m^3']));
    for (const [at, number] of degrees.entries())
      expect(toInternal(findUnit('degAPI')!.unit, number, KINDS.oil_gravity)).toBeCloseTo(densities[at]! * 0.999016, 9);
  });
});

/** Printed factors, NIST SP 811 App. B.8, and values derived from them; digits as printed. */
const PRINTED = [
  ['1 ft', 'm', 0.3048],
  ['1 in', 'm', 0.0254],
  ['1 lbf', 'N', 4.4482216152605],
  ['1 psi', 'Pa', 6894.757293168],
  ['1 bar', 'psi', 14.503773773],
  ['1 kgf/cm2', 'Pa', 98066.5],
  ['1 atm', 'Pa', 101325],
  ['1 bbl', 'm3', 0.158987294928],
  ['1 m3', 'bbl', 6.28981077],
  ['1 gal', 'm3', 0.003785411784],
  ['1 gpm', 'bbl/d', 34.2857143],
  ['1 ft3', 'm3', 0.028316846592],
  ['1 scf/bbl', 'm3/m3', 0.1781076067],
  ['1 hp', 'W', 745.69987158],
  ['1 psi/ft', 'kPa/m', 22.6205948],
  ['1 bbl/d/psi', 'm3/d/bar', 2.30591576],
  ['1 kcmil', 'mm2', 0.5067074791],
  ['1 lbf.ft', 'N.m', 1.3558179483314],
  ['1 cP', 'mPa.s', 1],
  ['1 cSt', 'mm2/s', 1],
  ['1 gn', 'm/s2', 9.80665],
  ['30 V/1000 ft', 'V/km', 98.425],
  ['1 lb', 'kg', 0.45359237],
  ['1 lb/ft3', 'kg/m3', 16.0184634],
  ['1 lb/gal', 'kg/m3', 119.826427],
] as const;

test.each(PRINTED)('%s in %s is %d as printed', (text, unit, printed) => {
  const quantity = parseQuantity(text, KINDS.any).quantity!;
  expect(nearly(quantity.value / findUnit(unit)!.unit.factor, printed, SIX_DIGITS)).toBe(true);
});

test.each([
  ['96.11 degC', 205],
  ['140 degC', 284],
  ['204.4 degC', 400],
  ['232.2 degC', 450],
  ['-10 degC', 14],
])('%s is %d degF', (text, fahrenheit) => {
  const value = parseQuantity(text, KINDS.temperature).quantity!.value;
  expect(value * 1.8 + 32).toBeCloseTo(fahrenheit, 0);
  expect(parseQuantity(`${fahrenheit} degF`, KINDS.temperature).quantity!.value).toBeCloseTo(value, 0);
});
