import { sameNumberInOtherUnits } from '../quantity/convert.ts';
import { formatMeasure } from '../quantity/format.ts';
import type { Kind, Quantity } from '../quantity/types.ts';
import { ATMOSPHERE, aboveVacuum } from './range.ts';
import type { QuantityShape } from './shape.ts';

interface Range {
  readonly low: number;
  readonly high: number;
}

/** Beyond its range by more than this a number is no rare case but a slip: common practice, no source. */
const FACTOR_OF_A_SLIP = 1000;

const ABSOLUTE_ZERO = -273.15;

/** What is odd about a quantity, and whether it is so far off that nothing should be worked out from it. */
export interface Implausible {
  readonly message: string;
  readonly impossible: boolean;
  /** The same number in units in which it would be usual. */
  readonly meant: readonly string[];
}

/** Says that a quantity is far outside what its key usually holds; names a unit in which the number would be usual. */
export function implausible(quantity: Quantity, shape: QuantityShape, kind: Kind): Implausible | undefined {
  if (shape.plausible === undefined || shape.range === undefined || quantity.alternate !== undefined) return undefined;
  const range = { low: shape.range[0], high: shape.range[1] };
  const value = aboveVacuum(quantity, quantity.value);
  if (value >= range.low && value <= range.high) return undefined;
  const written = formatMeasure(quantity.value, kind, quantity.unit, quantity.reference);
  const meant = meantUnits(quantity, kind, range);
  const hint = meant.length === 0 ? 'Check the number and its unit.' : `Was ${meant.join(' or ')} meant?`;
  const usual = shape.plausible.join(' to ');
  return isImpossible(kind, value, range)
    ? {
        message: `${written} cannot be right here, where ${usual} is usual; nothing is worked out from it. ${hint}`,
        impossible: true,
        meant,
      }
    : { message: `${written} is outside what is usual here, ${usual}. ${hint}`, impossible: false, meant };
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
  // Below zero it is the sign that is wrong; another unit keeps it.
  if (quantity.number < 0 && kind.point !== 'temperature') {
    const isMeant = inside(range, aboveVacuum(quantity, -quantity.value));
    return isMeant ? [`${-quantity.number} ${quantity.unit}`.trim()] : [];
  }
  return sameNumberInOtherUnits(quantity.number, kind)
    .filter(({ unit, value }) => unit !== quantity.unit && inside(range, aboveVacuum(quantity, value)))
    .map(({ unit }) => `${quantity.number} ${unit}`);
}

function inside({ low, high }: Range, value: number): boolean {
  return value >= low && value <= high;
}
