import type { Dimension, Unit } from './types.ts';
import { type Factor, NUMBER, PREFIXES, UNIT_TABLE, type UnitRow } from './unit-table.ts';

/** The unit of a number written without one. */
export const BARE: Unit = makeUnit({ symbol: '', factor: [1, 1], dimension: NUMBER, nature: 'bare', source: '' });

/** The units of the table by each of their spellings, prefixed ones included. */
export const SYMBOLS: ReadonlyMap<string, Unit> = prepareSymbols();

/** Every unit of the table under its own symbol, prefixed ones included, compounds not. */
export function tableUnits(): readonly Unit[] {
  return [...new Set(SYMBOLS.values())];
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return (
    a.length === b.length &&
    a.mass === b.mass &&
    a.time === b.time &&
    a.current === b.current &&
    a.temperature === b.temperature
  );
}

function makeUnit(row: UnitRow): Unit {
  const [numerator, denominator] = row.factor;
  return Object.freeze({
    symbol: row.symbol,
    factor: numerator / denominator,
    offset: row.offset ?? 0,
    dimension: row.dimension,
    numerator,
    denominator,
    nature: row.nature ?? 'plain',
    scale: row.scale ?? 'linear',
    system: row.system ?? 'both',
  });
}

function prepareSymbols(): Map<string, Unit> {
  const symbols = new Map<string, Unit>();
  for (const row of UNIT_TABLE) {
    addSpellings(symbols, row, '');
    for (const prefix of row.prefixes ?? '') addSpellings(symbols, row, prefix);
  }
  return symbols;
}

function addSpellings(symbols: Map<string, Unit>, row: UnitRow, prefix: string): void {
  const unit = makeUnit({ ...row, symbol: prefix + row.symbol, factor: scaled(row.factor, PREFIXES[prefix]) });
  for (const spelling of [row.symbol, ...(row.spellings ?? [])]) symbols.set(prefix + spelling, unit);
  if (prefix === '') for (const word of row.words ?? []) symbols.set(word, unit);
}

function scaled(factor: Factor, prefix: Factor = [1, 1]): Factor {
  return [factor[0] * prefix[0], factor[1] * prefix[1]];
}
