import type { Measure } from '../findings/finding.ts';
import type { Located } from '../links/installation.ts';
import { fromAbsolute } from '../quantity/convert.ts';
import { formatMeasure, formatNumber, measureIn } from '../quantity/format.ts';
import { kindNamed } from '../quantity/kinds.ts';
import type { Kind, Quantity, Reference } from '../quantity/types.ts';
import { findUnit } from '../quantity/units.ts';
import type { Evaluation } from '../values/evaluation.ts';

/** In which units a document for people is written. */
export const UNIT_CHOICES = ['as-written', 'metric', 'oilfield'] as const;
export type UnitChoice = (typeof UNIT_CHOICES)[number];

/** What a crew that thinks in the other system reads instead; the first pair of a unit counts. */
const COUNTERPARTS: readonly (readonly [metric: string, oilfield: string])[] = [
  ['m', 'ft'],
  ['mm', 'in'],
  ['cm', 'in'],
  ['bar', 'psi'],
  ['kPa', 'psi'],
  ['MPa', 'psi'],
  ['kgf/cm2', 'psi'],
  ['degC', 'degF'],
  ['K', 'delta degF'],
  ['delta degC', 'delta degF'],
  ['m3/d', 'bbl/d'],
  ['m3/h', 'gpm'],
  ['N.m', 'lbf.ft'],
  ['kg', 'lb'],
  ['t', 'lb'],
  ['kN', 'lbf'],
  ['N', 'lbf'],
  ['kW', 'hp'],
  ['m/s', 'ft/s'],
  ['mm/s', 'in/s'],
  ['kg/m3', 'lb/gal'],
  ['ohm/km', 'ohm/1000 ft'],
  ['Mohm.km', 'Mohm.kft'],
];
const ENOUGH_DIGITS = 8;

/** Writes the numbers of one installation in the units asked for. */
export class Notation {
  readonly choice: UnitChoice;
  readonly #evaluation: Evaluation;

  constructor(evaluation: Evaluation, choice: UnitChoice) {
    this.#evaluation = evaluation;
    this.choice = choice;
  }

  /** An entry: the number as its author wrote it, unless other units are asked for. */
  ofEntry({ document, node }: Located): Measure | undefined {
    const quantity = document.quantities[node];
    if (quantity === undefined) return undefined;
    const { installation } = this.#evaluation;
    const bareMeans = document === installation.document ? installation.bareMeans : 'gauge';
    const reference = quantity.kind.point === 'pressure' ? (quantity.reference ?? bareMeans) : quantity.reference;
    const unit = this.unit(quantity.unit);
    if (unit === quantity.unit) return { number: quantity.number, unit: `${unit}${mark(reference)}` };
    return measureIn(formatMeasure(quantity.value, quantity.kind, unit, reference));
  }

  /**
   * A computed number, in the unit of `like` or as this author usually writes such things.
   * @param number in the internal unit of the kind; a pressure in Pa absolute
   */
  ofNumber(number: number, kindName: string, like?: Quantity, reference?: Reference): Measure {
    const kind = kindNamed(kindName);
    if (kind === undefined) return { number, unit: '' };
    const model = like?.kind === kind ? like : this.#usualOf(kind);
    if (kind.name === 'duration' && like === undefined)
      return measureIn(formatMeasure(number, kind, readableTime(number)));
    const unit = this.unit(model?.unit ?? kind.usual[0] ?? kind.internal);
    if (kind.point !== 'pressure') return measureIn(formatMeasure(number, kind, unit));
    const { installation } = this.#evaluation;
    const from = reference ?? model?.reference ?? installation.bareMeans;
    return measureIn(formatMeasure(fromAbsolute(number, from, installation.atmosphere), kind, unit, from));
  }

  /** The same unit, or what stands for it in the system asked for. */
  unit(written: string): string {
    const system = findUnit(written)?.unit.system ?? 'both';
    if (this.choice === 'as-written' || system === 'both' || system === this.choice) return written;
    const pair = COUNTERPARTS.find((each) => each[system === 'metric' ? 0 : 1] === written);
    return pair?.[this.choice === 'metric' ? 0 : 1] ?? written;
  }

  /** How this installation or one of its sheets first writes such a quantity. */
  #usualOf(kind: Kind): Quantity | undefined {
    const { document, sheets } = this.#evaluation.installation;
    for (const each of [document, ...sheets.values()]) {
      const found = each.quantities.find((quantity) => quantity?.kind === kind);
      if (found !== undefined) return found;
    }
    return undefined;
  }
}

/** Nobody reads 18 415 s. */
function readableTime(seconds: number): string {
  return seconds < 120 ? 's' : seconds < 7200 ? 'min' : 'h';
}

/** A measure as text: `12 bar(g)`. */
export function shown({ number, unit }: Measure): string {
  return `${formatNumber(number, { significant: ENOUGH_DIGITS })} ${unit}`.trim();
}

/** A number as it is printed after rounding to four digits. */
export function rounded(number: number): number {
  return Number(formatNumber(number));
}

function mark(reference: Reference | undefined): string {
  return reference === undefined ? '' : reference === 'gauge' ? '(g)' : '(a)';
}
