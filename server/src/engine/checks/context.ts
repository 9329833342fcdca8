import type { Measure } from '../findings/finding.ts';
import { fromAbsolute, toUnit } from '../quantity/convert.ts';
import { conciseNumber, formatMeasure, formatNumber, measureIn } from '../quantity/format.ts';
import { KINDS, kindNamed } from '../quantity/kinds.ts';
import type { Quantity } from '../quantity/types.ts';
import type { Evaluation } from '../values/evaluation.ts';
import { type Item, itemsAt } from './slots.ts';

const DIFFERENCES: Readonly<Record<string, string>> = {
  pressure: 'pressure_difference',
  temperature: 'temperature_difference',
};

/** The kind of the distance between two numbers of a kind. */
export function differenceKind(kind: string): string {
  return DIFFERENCES[kind] ?? kind;
}

const DIFFERENCE_UNITS: Readonly<Record<string, string>> = { degC: 'K', degF: 'delta degF' };

/** What a check may use besides the inputs that it declares: the case it stands in, and the author's own units. */
export class CheckContext {
  readonly caseIndex: number;
  /** Day on which the check is made, `2026-03-14`; the engine has no clock. */
  readonly today: string;
  /** Set as soon as something is looked at that no check declares as an input, be it a text or a unit. */
  looksAround = false;
  readonly #evaluation: Evaluation;
  readonly #items = new Map<string, readonly Item[]>();

  constructor(evaluation: Evaluation, caseIndex: number, today: string) {
    this.#evaluation = evaluation;
    this.caseIndex = caseIndex;
    this.today = today;
  }

  get evaluation(): Evaluation {
    this.looksAround = true;
    return this.#evaluation;
  }

  /**
   * The entries of one place of the format, to name them in what is said. That is no look around: a check that comes to
   * words is run again anyway.
   */
  itemsAt(path: string): readonly Item[] {
    const known = this.#items.get(path) ?? itemsAt(this.#evaluation, path);
    this.#items.set(path, known);
    return known;
  }

  get caseName(): string {
    return this.evaluation.caseName(this.caseIndex);
  }

  /** A number in the unit and with the reference that the author wrote at a key, else as the file usually writes it. */
  show(number: number, kind: string, key = ''): string {
    const isComputedShare = kind === 'ratio' && (key === '' || this.quantity(key)?.value !== number);
    return this.#text(number, kind, key, isComputedShare ? conciseNumber : formatNumber);
  }

  /** The distance between two numbers of a kind, in the unit that the author wrote at a key: a difference, not a point. */
  showDifference(number: number, kind: string, key = ''): string {
    const known = kindNamed(kind);
    const difference = kindNamed(differenceKind(kind));
    if (known === undefined || difference === undefined) return formatNumber(number);
    const { unit } = this.#inAuthorsUnit(number, kind, key);
    return formatMeasure(number, difference, DIFFERENCE_UNITS[unit] ?? unit, undefined, conciseNumber);
  }

  /** The same as a number and a unit, for those who read the report by machine. */
  measure(number: number, kind: string, key = ''): Measure {
    return measureIn(this.#text(number, kind, key, formatNumber));
  }

  /** The same with all its digits: for axes, whose steps must be round in the author's unit. */
  unrounded(number: number, kind: string, key = ''): Measure {
    const known = kindNamed(kind);
    const { unit, number: shown } = this.#inAuthorsUnit(number, kind, key);
    const inUnit = known === undefined ? undefined : toUnit(shown, known, unit);
    return { number: inUnit ?? number, unit: this.measure(number, kind, key).unit };
  }

  /** The text of an entry as the author wrote it; empty if it is absent. */
  text(key: string): string {
    return this.evaluation.entryText(key) ?? '';
  }

  quantity(key: string): Quantity | undefined {
    const located = this.evaluation.locate(key);
    return located?.document.quantities[located.node];
  }

  #text(number: number, kind: string, key: string, write: (number: number) => string): string {
    const known = kindNamed(kind);
    if (known === undefined) return formatNumber(number);
    const { unit, reference, number: shown } = this.#inAuthorsUnit(number, kind, key);
    return formatMeasure(shown, known, unit, reference, write);
  }

  #inAuthorsUnit(number: number, kind: string, key: string) {
    const written = key === '' ? undefined : this.quantity(key);
    const isWritten = written?.kind.name === kind;
    const model = isWritten ? written : this.#usualOf(kind);
    const own = model?.unit ?? kindNamed(kind)?.usual[0] ?? '';
    const unit =
      kind === 'duration' ? readableDuration(number, own) : isWritten ? own : readableUnit(number, kind, own);
    if (kind !== 'pressure') return { unit, reference: undefined, number };
    const reference = model?.reference ?? this.evaluation.installation.bareMeans;
    return { unit, reference, number: fromAbsolute(number, reference, this.evaluation.installation.atmosphere) };
  }

  /** The first quantity of that kind in the file: how this author writes such things. */
  #usualOf(kind: string): Quantity | undefined {
    return this.evaluation.installation.document.quantities.find((each) => each?.kind.name === kind);
  }
}

/** A duration in the author's unit, unless that makes a crumb of it or a heap: nobody reads 0.024 d. */
function readableDuration(number: number, preferred: string): string {
  const size = (unit: string) => Math.abs(toUnit(number, KINDS.duration, unit) ?? 0);
  if (number === 0 || (size(preferred) >= 0.5 && size(preferred) < 1000)) return preferred;
  return ['d', 'h', 'min'].find((unit) => size(unit) >= 1) ?? 's';
}

// Beyond these a number is mostly zeros: one resistance is told in Mohm, another in ohm.
const LEAST_READABLE = 1e-3;
const MOST_READABLE = 1e6;

/** The unit preferred, unless the number is hard to read in it and easy in another that is usual for the kind. */
function readableUnit(number: number, kind: string, preferred: string): string {
  const known = kindNamed(kind);
  if (known === undefined || known.point !== undefined || number === 0) return preferred;
  const reads = (unit: string) => {
    const size = Math.abs(toUnit(number, known, unit) ?? 0);
    return size >= LEAST_READABLE && size < MOST_READABLE;
  };
  return reads(preferred) ? preferred : (known.usual.find(reads) ?? preferred);
}
