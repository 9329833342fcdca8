import { formatMeasure } from './format.ts';
import { KINDS, misfit, takesAlternate } from './kinds.ts';
import { isBlank, type ScannedNumber, scanNumber, skipBlanks } from './number.ts';
import {
  groupedNumber,
  missingUnit,
  notAQuantity,
  notComputable,
  offer,
  problem,
  type QuantityProblem,
  quote,
  referenceOnDifference,
  type Stretch,
  unfitUnit,
  unknownUnit,
} from './problems.ts';
import { spread, toInternal } from './scale.ts';
import { sameDimension } from './symbols.ts';
import type { Kind, Quantity } from './types.ts';
import { findUnit, type UnitMatch } from './units.ts';
import { THICKEST_GAUGE, THINNEST_GAUGE } from './wire-gauge.ts';

/** A quantity, or what is wrong with its text: never both. */
export interface ParseResult {
  readonly quantity: Quantity | undefined;
  readonly problems: readonly QuantityProblem[];
}

/** A number with its unit at some place in the text. */
interface Measure {
  readonly written: ScannedNumber;
  /** The number to compute with: as written, but for wire gauges, where `2/0` is -1. */
  readonly number: number;
  readonly found: UnitMatch;
  readonly value: number;
  readonly unitAt: Stretch;
  /** Where the unit's text ends: at `=`, at a tolerance's sign or at the end. */
  readonly end: number;
}

interface Reading {
  readonly measure: Measure;
  readonly tolerance: number;
  readonly end: number;
}

const NO_PROBLEMS: readonly QuantityProblem[] = Object.freeze([]);
// No quantity that anybody writes is longer, and the limit bounds the work on hostile text.
const LONGEST_TEXT = 256;
// Readings are compared after conversion, which rounds in the last bits.
const ROUNDING = 1e-9;

/**
 * Reads a quantity of a kind: a number and a unit, then perhaps a tolerance (`+- 5 m`, `± 10 %`) and a second reading in
 * another unit (`= 29 psi`). The value is in the kind's internal unit; a pressure keeps the reference it was written
 * with. A tolerance in `%` is of the number as written, but on a share it is in points. Never throws, on any text.
 */
export function parseQuantity(text: string, kind: Kind): ParseResult {
  const outcome = readText(text, kind);
  return 'check' in outcome
    ? { quantity: undefined, problems: [outcome] }
    : { quantity: outcome, problems: NO_PROBLEMS };
}

function readText(text: string, kind: Kind): Quantity | QuantityProblem {
  if (text.length > LONGEST_TEXT) return notComputable(stretch(text, 0, text.length), 'it is too long for a quantity');
  const first = readReading(text, 0, kind);
  if ('check' in first) return first;
  return first.end >= text.length ? quantityOf(first, kind, undefined) : readSecond(text, first, kind);
}

function readSecond(text: string, first: Reading, kind: Kind): Quantity | QuantityProblem {
  const second = readReading(text, first.end + 1, kind);
  if ('check' in second) return second;
  if (second.end < text.length) return trailingText(text, second.end);
  return disagreement(text, first, second, kind) ?? quantityOf(first, kind, second);
}

function trailingText(text: string, from: number): QuantityProblem {
  const rest = stretch(text, from, text.length);
  return problem('document.wrong-type', rest, `${quote(rest)} follows a complete quantity. Remove it.`);
}

function readReading(text: string, start: number, kind: Kind): Reading | QuantityProblem {
  const measure = readMeasure(text, start, kind);
  if ('check' in measure) return measure;
  if (measure.end >= text.length || text.charCodeAt(measure.end) === 61)
    return { measure, tolerance: 0, end: measure.end };
  return readTolerance(text, measure, kind);
}

function readMeasure(text: string, start: number, kind: Kind): Measure | QuantityProblem {
  const written = scanNumber(text, start);
  if (written === undefined) return notAQuantity(trimmed(text, start, endOfUnit(text, start)), kind);
  const numberAt = stretch(text, written.start, written.end);
  if (written.grouped) return groupedNumber(numberAt);
  const end = endOfUnit(text, written.end);
  const unitAt = trimmed(text, written.end, end);
  const found = findUnit(text.slice(unitAt.start, unitAt.end));
  if (found === undefined) return unknownUnit(unitAt, kind);
  const why = misfit(kind, found.unit);
  if (why !== undefined && unitAt.start === unitAt.end) return missingUnit(numberAt, written, kind);
  if (why !== undefined) return unfitUnit(unitAt, written, found, kind, why);
  if (found.reference !== undefined && !takesReference(kind)) return referenceOnDifference(unitAt, found, kind);
  const number = found.unit.scale === 'awg' && written.aughts > 0 ? 1 - written.aughts : written.value;
  const measure = { written, number, found, value: toInternal(found.unit, number, kind), unitAt, end };
  return uncomputable(measure) ?? measure;
}

function takesReference(kind: Kind): boolean {
  return kind.point === 'pressure' || kind === KINDS.any;
}

function uncomputable(measure: Measure): QuantityProblem | undefined {
  const at = stretch(measure.unitAt.text, measure.written.start, measure.unitAt.end);
  if (measure.found.unit.scale === 'awg' && !isGauge(measure.number, measure.written))
    return notComputable(at, 'wire gauges are whole numbers from 56 to 1, then 1/0 to 4/0');
  if (Number.isFinite(measure.value)) return undefined;
  if (Number.isNaN(measure.written.value)) return notComputable(at, 'it divides by zero');
  return notComputable(at, 'it is out of range');
}

function isGauge(gauge: number, written: ScannedNumber): boolean {
  const isNegative = written.aughts === 0 && gauge < 1;
  return Number.isInteger(gauge) && !isNegative && gauge >= THICKEST_GAUGE && gauge <= THINNEST_GAUGE;
}

/** The tolerance after a measure, whose unit is the measure's own unless it states another. */
function readTolerance(text: string, measure: Measure, kind: Kind): Reading | QuantityProblem {
  const start = afterPlusMinus(text, measure.end);
  const written = start === undefined ? undefined : scanNumber(text, start);
  if (written === undefined) return badTolerance(trimmed(text, measure.end, text.length));
  const numberAt = stretch(text, written.start, written.end);
  if (written.grouped) return groupedNumber(numberAt);
  if (!(written.value >= 0 && Number.isFinite(written.value))) return badTolerance(numberAt);
  const end = endOfUnit(text, written.end);
  const unitAt = trimmed(text, written.end, end);
  const found = unitAt.start === unitAt.end ? undefined : findUnit(text.slice(unitAt.start, unitAt.end));
  if (found === undefined && unitAt.start < unitAt.end) return unknownUnit(unitAt, differenceKind(kind));
  const tolerance = toleranceOf(measure, written, found, unitAt, kind);
  if (typeof tolerance !== 'number') return tolerance;
  if (!Number.isFinite(tolerance)) return badTolerance(numberAt);
  if (end < text.length && text.charCodeAt(end) !== 61) return trailingText(text, end);
  return { measure, tolerance, end };
}

function badTolerance(at: Stretch): QuantityProblem {
  return problem(
    'document.wrong-type',
    at,
    `${quote(at)} is not a tolerance. Write one as +- and a number that is not negative, such as +- 5 %.`,
  );
}

/** Half the width of the tolerance in the internal unit, or why it has none. */
function toleranceOf(
  measure: Measure,
  written: ScannedNumber,
  stated: UnitMatch | undefined,
  unitAt: Stretch,
  kind: Kind,
): number | QuantityProblem {
  const { unit } = measure.found;
  if (stated === undefined || stated.unit === unit) {
    const isScaled = stated !== undefined && unit.scale === 'point';
    if (isScaled) return unfitUnit(unitAt, written, stated, KINDS.temperature_difference, 'point-for-difference');
    if (stated?.reference !== undefined) return referenceOnDifference(unitAt, stated, KINDS.pressure_difference);
    return spread(unit, measure.number, written.value, kind);
  }
  if (stated.unit.nature === 'ratio' && !takesPoints(measure))
    return percentTolerance(measure, written, stated, unitAt, kind);
  return statedTolerance(measure, written, stated, unitAt, kind);
}

/** On a share `+- 2 %` counts points; on anything else it is a part of the number. */
function takesPoints(measure: Measure): boolean {
  const { nature } = measure.found.unit;
  return nature === 'ratio' || nature === 'bare';
}

function percentTolerance(
  measure: Measure,
  written: ScannedNumber,
  stated: UnitMatch,
  unitAt: Stretch,
  kind: Kind,
): number | QuantityProblem {
  const { unit } = measure.found;
  // A part of a temperature depends on where its scale begins.
  if (unit.scale === 'point' || kind.point === 'temperature')
    return unfitUnit(unitAt, written, stated, KINDS.temperature_difference, 'dimension');
  return spread(unit, measure.number, Math.abs(measure.number) * written.value * stated.unit.factor, kind);
}

function statedTolerance(
  measure: Measure,
  written: ScannedNumber,
  stated: UnitMatch,
  unitAt: Stretch,
  kind: Kind,
): number | QuantityProblem {
  const due = differenceKind(kind);
  const why = misfit(due, stated.unit) ?? (isCompatible(measure.found, stated) ? undefined : 'dimension');
  if (why !== undefined) return unfitUnit(unitAt, written, stated, due, why);
  if (stated.reference !== undefined) return referenceOnDifference(unitAt, stated, due);
  return spread(stated.unit, measure.number, written.value, kind);
}

/** Gravity and wire gauge are formulas: a width in them means nothing beside a number in another unit. */
function isCompatible(measure: UnitMatch, stated: UnitMatch): boolean {
  const isFactor = stated.unit.scale !== 'api' && stated.unit.scale !== 'awg';
  return isFactor && sameDimension(measure.unit.dimension, stated.unit.dimension);
}

/** What a tolerance on a kind is: for points on a scale, a difference. */
function differenceKind(kind: Kind): Kind {
  if (kind.point === 'pressure') return KINDS.pressure_difference;
  return kind.point === 'temperature' ? KINDS.temperature_difference : kind;
}

/** The two readings of one quantity must each lie within half a unit of the other's last digit. */
function disagreement(text: string, a: Reading, b: Reading, kind: Kind): QuantityProblem | undefined {
  const at = trimmed(text, 0, text.length);
  const [first, second] = [a.measure.found, b.measure.found];
  if (!sameDimension(first.unit.dimension, second.unit.dimension))
    return problem('units.two-readings-disagree', at, `The two readings of ${quote(at)} are of different things.`);
  const references = [first.reference ?? second.reference, second.reference ?? first.reference];
  if (references[0] !== references[1])
    return problem(
      'units.two-readings-disagree',
      at,
      `One reading of ${quote(at)} is gauge and the other absolute. Write both against the same reference.`,
    );
  return valuesAgree(a.measure, b.measure, kind) ? undefined : disagreeing(at, a.measure, b.measure, kind);
}

function valuesAgree(a: Measure, b: Measure, kind: Kind): boolean {
  const allowed = Math.min(resolutionOf(a, kind), resolutionOf(b, kind));
  const rounding = ROUNDING * Math.max(Math.abs(a.value), Math.abs(b.value));
  return Math.abs(a.value - b.value) <= allowed + rounding;
}

/** Half a unit of the last digit written, in the internal unit. */
function resolutionOf(measure: Measure, kind: Kind): number {
  return spread(measure.found.unit, measure.number, measure.written.step / 2, kind);
}

function disagreeing(at: Stretch, a: Measure, b: Measure, kind: Kind): QuantityProblem {
  const other = (from: Measure, to: Measure): string => formatMeasure(from.value, kind, to.found.unit.symbol);
  const [textA, textB] = [textOf(a), textOf(b)];
  const message =
    `The two readings disagree: ${textA} is ${other(a, b)}, and ${textB} is ${other(b, a)}. ` +
    "Each must lie within half a unit of the other's last digit.";
  const fixes = [textA, textB].map((text) => offer(`Keep ${text}`, text));
  return problem('units.two-readings-disagree', at, message, fixes);
}

function textOf(measure: Measure): string {
  return measure.unitAt.text.slice(measure.written.start, measure.unitAt.end);
}

function quantityOf(reading: Reading, kind: Kind, second: Reading | undefined): Quantity {
  const { measure } = reading;
  const { unit, reference } = measure.found;
  return {
    kind,
    value: measure.value,
    number: measure.number,
    unit: unit.symbol,
    reference: reference ?? second?.measure.found.reference,
    tolerance: reading.tolerance > 0 || second === undefined ? reading.tolerance : second.tolerance,
    resolution: resolutionOf(measure, kind),
    alternate: takesAlternate(kind, unit) ? 'kinematic' : undefined,
  };
}

/** Where a unit's text stops: before `=`, `±` or `+`, which no unit contains. */
function endOfUnit(text: string, start: number): number {
  for (let at = start; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 61 || code === 43 || code === 0xb1) return at;
  }
  return text.length;
}

/** The place after `+-`, `+/-` or `±`; undefined where none stands. */
function afterPlusMinus(text: string, at: number): number | undefined {
  if (text.charCodeAt(at) === 0xb1) return skipBlanks(text, at + 1);
  const minus = text.charCodeAt(at + 1) === 47 ? at + 2 : at + 1;
  const code = text.charCodeAt(minus);
  return code === 45 || code === 0x2212 ? skipBlanks(text, minus + 1) : undefined;
}

function stretch(text: string, start: number, end: number): Stretch {
  return { text, start, end };
}

/** The stretch without the blanks around it; empty at its start when it is all blank. */
function trimmed(text: string, start: number, end: number): Stretch {
  const from = Math.min(skipBlanks(text, start), end);
  let to = end;
  while (to > from && isBlank(text.charCodeAt(to - 1))) to--;
  return { text, start: from, end: to };
}
