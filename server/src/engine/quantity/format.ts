import { misfit } from './kinds.ts';
import { fromInternal } from './scale.ts';
import type { Kind, Reference } from './types.ts';
import { findUnit } from './units.ts';
import { THICKEST_GAUGE } from './wire-gauge.ts';

const WHOLE_VOLTS_FROM = 100;
const MM2_PER_M2 = 1e6;
// A gauge counts as met within this part of a size, which is 0.2 % of its area.
const GAUGE_ROUNDING = 0.01;

/**
 * A number for a reader: `significant` digits (4 unless told), but never fewer than its whole ones, so that 12345 stays
 * 12345. No grouping, no zeros at the end of the decimals, no exponent between 1e-4 and 1e7.
 */
export function formatNumber(number: number, options: { readonly significant?: number } = {}): string {
  const { significant = 4 } = options;
  if (!Number.isFinite(number)) return String(number);
  const size = Math.abs(number);
  if (size === 0) return '0';
  if (size < 1e-4 || size >= 1e7) return trimZeros(number.toExponential(significant - 1));
  const magnitude = Math.floor(Math.log10(size));
  return trimZeros(number.toFixed(Math.max(significant - 1 - magnitude, 0)));
}

/**
 * A computed number for a sentence: three digits. It keeps its fourth where three would make it round: `10.02` beside a
 * limit of `10` must not read as the limit.
 */
export function conciseNumber(number: number): string {
  const short = formatNumber(number, { significant: 3 });
  return short.replace(/\D/g, '').replace(/^0+/, '').length < 3 ? formatNumber(number) : short;
}

/** A share for a reader, such as an unbalance: `2.35 %`. */
export function percentText(share: number): string {
  return `${formatNumber(100 * share, { significant: 3 })} %`;
}

/** Drops the zeros that end the decimals: `0.4210` is `0.421`, `1.20e+7` is `1.2e7`. */
function trimZeros(text: string): string {
  const [mantissa, exponent] = text.split('e') as [string, string?];
  const short = mantissa.includes('.') ? mantissa.replace(/\.?0+$/, '') : mantissa;
  return exponent === undefined ? short : `${short}e${exponent.replace('+', '')}`;
}

/**
 * A value in the kind's internal unit as text in the unit asked for, such as `62 bar(g)`, `1200 V`, `2/0 AWG`; in the
 * internal unit where the one asked for does not fit, and in mm2 where no wire gauge does. Volts are whole from 100 V on.
 */
export function formatMeasure(
  value: number,
  kind: Kind,
  unitText: string,
  reference?: Reference,
  write: (number: number) => string = formatNumber,
): string {
  const unit = findUnit(unitText)?.unit;
  if (unit === undefined || misfit(kind, unit) !== undefined) return withUnit(write(value), kind.internal, reference);
  const number = fromInternal(unit, value, kind);
  if (unit.scale === 'awg') return gaugeText(number) ?? `${formatNumber(value * MM2_PER_M2)} mm2`;
  const isWhole = unit.symbol === 'V' && Math.abs(number) >= WHOLE_VOLTS_FROM;
  return withUnit(write(isWhole ? Math.round(number) : number), unit.symbol, reference);
}

function withUnit(number: string, symbol: string, reference?: Reference): string {
  if (symbol === '') return number;
  const mark = reference === undefined ? '' : reference === 'gauge' ? '(g)' : '(a)';
  return `${number} ${symbol}${mark}`;
}

/** Wire gauges beyond 0 are written by their noughts: -1 is `2/0`. A size between two gauges has no name. */
function gaugeText(gauge: number): string | undefined {
  const nearest = Math.round(gauge);
  if (nearest < THICKEST_GAUGE || Math.abs(gauge - nearest) > GAUGE_ROUNDING) return undefined;
  return nearest > 0 ? `${nearest} AWG` : `${1 - nearest}/0 AWG`;
}

/** A number with its unit as written by {@link formatMeasure}, taken apart again for those who read by machine. */
export function measureIn(text: string): { readonly number: number; readonly unit: string } {
  const end = text.indexOf(' ');
  if (end < 0) return { number: Number(text), unit: '' };
  return { number: Number(text.slice(0, end)), unit: text.slice(end + 1) };
}
