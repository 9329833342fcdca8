import { describe, expect, test } from 'vitest';
import { tableUnits } from '../../../server/src/engine/quantity/symbols.ts';
import { PREFIXES, UNIT_TABLE } from '../../../server/src/engine/quantity/unit-table.ts';
import { findUnit, findUnitFault, knownSpellings } from '../../../server/src/engine/quantity/units.ts';

describe('the table of units', () => {
  test('no two units claim one spelling', () => {
    const claims = UNIT_TABLE.flatMap((row) => [
      ...[row.symbol, ...(row.spellings ?? [])].flatMap((spelling) =>
        ['', ...(row.prefixes ?? '')].map((prefix) => prefix + spelling),
      ),
      ...(row.words ?? []),
    ]);
    expect(claims.filter((claim, at) => claims.indexOf(claim) !== at)).toEqual([]);
  });

  test('each unit has a source, known prefixes, and is found under its own symbol', () => {
    for (const row of UNIT_TABLE) {
      expect(row.source, row.symbol).not.toBe('');
      for (const prefix of row.prefixes ?? '') expect(PREFIXES).toHaveProperty(prefix);
    }
    for (const unit of tableUnits()) expect(findUnit(unit.symbol)?.unit.symbol).toBe(unit.symbol);
  });

  test('what we write for any spelling is a spelling too', () => {
    for (const spelling of knownSpellings()) {
      const { unit } = findUnit(spelling)!;
      expect(findUnit(unit.symbol)?.unit.factor, spelling).toBe(unit.factor);
    }
  });
});

describe('spellings read alike', () => {
  test.each([
    ['m³/d', 'm3/d'],
    ['m^3/d', 'm3/d'],
    ['m3 / d', 'm3/d'],
    ['barrels/day', 'bbl/d'],
    ['stb/d', 'bbl/d'],
    ['kΩ', 'kohm'],
    ['kΩ', 'kohm'],
    ['MOhm', 'Mohm'],
    ['N⋅m', 'N.m'],
    ['N*m', 'N.m'],
    ['ft-lbf', 'ft.lbf'],
    ['lbf ft', 'lbf.ft'],
    ['°', 'deg'],
    ['°API', 'degAPI'],
    ['µm', 'um'],
    ['μm', 'um'],
    ['Sm3/Sm3', 'Sm3/Sm3'],
    ['1/min', '/min'],
    ['mm²', 'mm2'],
    ['V/1000ft', 'V/1000 ft'],
    ['deg/(30 m)', 'deg/(30 m)'],
    ['L/s', 'l/s'],
    ['Δ °C', 'delta degC'],
    ['delta   degF', 'delta degF'],
  ])('%s as %s', (text, symbol) => {
    expect(findUnit(text)?.unit.symbol).toBe(symbol);
  });

  test.each(['M', 'PSI', 'HZ', 'kv', 'spm', 'ton', 'Mscf', 'm//s', 'm..s', '/', '()', '1/', 'm^', 'm^0', 'm3x'])(
    '%s is no unit',
    (text) => {
      expect(findUnit(text)).toBeUndefined();
    },
  );
});

test('a fault is told for what is no unit, and none for what is one', () => {
  expect(findUnitFault('m/x')).toEqual({ start: 2, end: 3, reason: 'unknown' });
  expect(findUnitFault('W/m.K')?.reason).toBe('ambiguous');
  expect(findUnitFault('m3/d')).toBeUndefined();
});

describe('systems of units', () => {
  test.each([
    ['m', 'metric'],
    ['psi', 'oilfield'],
    ['V/1000 ft', 'oilfield'],
    ['m3/d', 'metric'],
    ['Hz', 'both'],
    ['V/km', 'metric'],
    ['1/s', 'both'],
  ])('%s is at home in %s', (text, system) => {
    expect(findUnit(text)?.unit.system).toBe(system);
  });
});
