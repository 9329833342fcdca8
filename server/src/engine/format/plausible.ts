import { sameNumberInOtherUnits, toAbsolute } from '../quantity/convert.ts';
import { formatMeasure } from '../quantity/format.ts';
import { kindNamed } from '../quantity/kinds.ts';
import { parseQuantity } from '../quantity/parse.ts';
import type { Kind, Quantity } from '../quantity/types.ts';
import { SHAPES } from './generated/shapes.ts';
import type { QuantityShape, Shape } from './shape.ts';

interface Range {
  readonly low: number;
  readonly high: number;
  readonly text: string;
}

/** Beyond its range by more than this a number is no rare case but a slip: common practice, no source. */
const FACTOR_OF_A_SLIP = 1000;

const ATMOSPHERE = 101_325;
const ABSOLUTE_ZERO = -273.15;

/** The ranges of all keys, converted once. */
const RANGES: ReadonlyMap<QuantityShape, Range> = collectRanges();

/** What is odd about a quantity, and whether it is so far off that nothing should be worked out from it. */
export interface Implausible {
  readonly message: string;
  readonly impossible: boolean;
}

/** Says that a quantity is far outside what its key usually holds; names a unit in which the number would be usual. */
export function implausible(quantity: Quantity, shape: QuantityShape, kind: Kind): Implausible | undefined {
  const range = RANGES.get(shape);
  if (range === undefined || quantity.alternate !== undefined) return undefined;
  const value = aboveVacuum(quantity, quantity.value);
  if (value >= range.low && value <= range.high) return undefined;
  const written = formatMeasure(quantity.value, kind, quantity.unit, quantity.reference);
  const meant = meantUnits(quantity, kind, range);
  const hint = meant.length === 0 ? 'Check the number and its unit.' : `Was ${meant.join(' or ')} meant?`;
  return isImpossible(kind, value, range)
    ? {
        message: `${written} cannot be right here, where ${range.text} is usual; nothing is worked out from it. ${hint}`,
        impossible: true,
      }
    : { message: `${written} is outside what is usual here, ${range.text}. ${hint}`, impossible: false };
}

/** Nothing where there must be something, or off by a factor that no well explains. */
function isImpossible({ point }: Kind, value: number, { low, high }: Range): boolean {
  if (point === 'temperature') return value < ABSOLUTE_ZERO;
  const zero = point === 'pressure' ? ATMOSPHERE : 0;
  if (point === 'pressure' && value < 0) return true;
  if (value <= zero && low > zero) return true;
  return value > FACTOR_OF_A_SLIP * high || (value > zero && FACTOR_OF_A_SLIP * value < low);
}

function meantUnits(quantity: Quantity, kind: Kind, range: Range): string[] {
  return sameNumberInOtherUnits(quantity.number, kind)
    .filter(({ unit, value }) => unit !== quantity.unit && inside(range, aboveVacuum(quantity, value)))
    .map(({ unit }) => `${quantity.number} ${unit}`);
}

function inside({ low, high }: Range, value: number): boolean {
  return value >= low && value <= high;
}

/** Ranges of pressures are compared above vacuum, with a bare unit read as gauge: they are far wider than an atmosphere. */
function aboveVacuum(quantity: Quantity, value: number): number {
  return quantity.kind.point === 'pressure' ? toAbsolute({ ...quantity, value }, 'gauge', ATMOSPHERE) : value;
}

function collectRanges(): Map<QuantityShape, Range> {
  const ranges = new Map<QuantityShape, Range>();
  const seen = new Set<Shape>();
  const visit = (shape: Shape | undefined): void => {
    if (shape === undefined || seen.has(shape)) return;
    seen.add(shape);
    const range = shape.quantity === undefined ? undefined : rangeOf(shape.quantity);
    if (shape.quantity !== undefined && range !== undefined) ranges.set(shape.quantity, range);
    for (const child of Object.values(shape.keys ?? {})) visit(child);
    visit(shape.item);
    visit(shape.open);
  };
  for (const shape of Object.values(SHAPES)) visit(shape);
  return ranges;
}

function rangeOf({ kind: name, plausible }: QuantityShape): Range | undefined {
  const kind = kindNamed(name);
  if (plausible === undefined || kind === undefined) return undefined;
  const [low, high] = plausible.map((text) => parseQuantity(text, kind).quantity);
  if (low === undefined || high === undefined) throw new Error(`no quantity of ${name}: ${plausible.join(' … ')}`);
  return {
    low: aboveVacuum(low, low.value),
    high: aboveVacuum(high, high.value),
    text: `${plausible[0]} to ${plausible[1]}`,
  };
}
