import type { CheckedFile, Worked } from '../check-document.ts';
import type { Measure } from '../findings/finding.ts';
import type { Located } from '../links/installation.ts';
import type { Quantity } from '../quantity/types.ts';
import { stepsOf } from '../syntax/tree.ts';
import { type Evaluation, State } from '../values/evaluation.ts';
import { missingEntries } from '../values/missing.ts';
import { cellOf } from '../values/rows.ts';
import { Notation, shown, type UnitChoice } from './notation.ts';

/** A computed value, or the entries that keep it from being known. */
export type Answer =
  | { readonly number: number; readonly kind: string }
  | { readonly number?: undefined; readonly missing: readonly string[] };

/** Everything that the stages ask about one installation. */
export class Facts {
  readonly file: CheckedFile;
  readonly worked: Worked;
  readonly notation: Notation;

  constructor(file: CheckedFile, worked: Worked, units: UnitChoice) {
    this.file = file;
    this.worked = worked;
    this.notation = new Notation(worked.evaluation, units);
  }

  get evaluation(): Evaluation {
    return this.worked.evaluation;
  }

  has(key: string): boolean {
    return this.evaluation.locate(key) !== undefined;
  }

  text(key: string): string | undefined {
    const text = this.evaluation.entryText(key, stepsOf(key));
    return text === '' ? undefined : text;
  }

  quantity(key: string): Quantity | undefined {
    const located = this.evaluation.locate(key);
    return located?.document.quantities[located.node];
  }

  /** An entry's number in its kind's internal unit; pressures absolute. */
  number(key: string): number | undefined {
    return this.evaluation.entryNumber(key, stepsOf(key));
  }

  measure(key: string): Measure | undefined {
    const located = this.evaluation.locate(key);
    return located === undefined ? undefined : this.notation.ofEntry(located);
  }

  /** An entry as it is printed. */
  show(key: string): string | undefined {
    const measure = this.measure(key);
    return measure === undefined ? this.text(key) : shown(measure);
  }

  /** A computed value; undefined where it does not concern this installation. */
  value(id: string, caseIndex = 0): Answer | undefined {
    const node = this.evaluation.network.byId.get(id);
    if (node === undefined) return undefined;
    const number = this.evaluation.numberOf(node, caseIndex);
    if (number !== undefined) return { number, kind: node.declaration.kind };
    if (this.evaluation.state(node, caseIndex) === State.notApplicable) return undefined;
    return { missing: missingEntries(this.evaluation, node, caseIndex) };
  }

  /** A computed value as a number with its unit; undefined where it is not known. */
  valueMeasure(id: string, caseIndex = 0): Measure | undefined {
    const answer = this.value(id, caseIndex);
    return answer?.number === undefined ? undefined : this.notation.ofNumber(answer.number, answer.kind);
  }

  showValue(id: string, caseIndex = 0): string | undefined {
    const measure = this.valueMeasure(id, caseIndex);
    return measure === undefined ? undefined : shown(measure);
  }

  showNumber(number: number, kind: string, like?: string): string {
    return shown(this.notation.ofNumber(number, kind, like === undefined ? undefined : this.quantity(like)));
  }

  rows(key: string): readonly Row[] {
    return (this.evaluation.rowNodes(key) ?? []).map((located) => new Row(this, located));
  }

  get caseNames(): readonly string[] {
    return this.evaluation.installation.caseNodes.map((_, index) => this.evaluation.caseName(index));
  }

  // What kind of installation it is

  get isLinear(): boolean {
    return this.text('lift') === 'linear';
  }

  /** A motor whose type is not entered may have magnets: it is treated as if it had. */
  get hasMagnets(): boolean {
    return this.text('equipment.motor.type') !== 'induction';
  }

  get hasDrive(): boolean {
    return this.has('equipment.drive');
  }

  get hasTransformer(): boolean {
    return this.has('equipment.transformer');
  }

  get hasGauge(): boolean {
    return this.has('equipment.gauge');
  }

  get hasFilter(): boolean {
    return this.text('equipment.drive.output_filter') === 'sine';
  }

  get hasSour(): boolean {
    return (this.number('fluid.h2s') ?? 0) > 0;
  }

  get isClassified(): boolean {
    const area = this.text('site.hazardous_area');
    return area !== undefined && !/^(none|no|non-hazardous|unclassified|safe)\b/i.test(area);
  }

  get restartsItself(): boolean {
    return this.text('setpoints.restart.mode') === 'automatic';
  }

  get holdsOffTrips(): boolean {
    return (this.number('setpoints.start.override') ?? 0) > 0;
  }

  /** What stands at the surface and is earthed together; direct on line there is a starter in the place of a drive. */
  get surfaceEquipment(): readonly string[] {
    return [
      'wellhead',
      ...(this.hasTransformer ? ['transformer'] : []),
      this.hasDrive ? 'drive' : 'starter',
      ...(this.hasFilter ? ['filter'] : []),
    ];
  }

  measures(channel: string): boolean {
    return this.has(`equipment.gauge.measures.${channel}`);
  }
}

/** One row of a list in the installation or in a data sheet. */
export class Row {
  readonly #facts: Facts;
  readonly #located: Located;

  constructor(facts: Facts, located: Located) {
    this.#facts = facts;
    this.#located = located;
  }

  #cell(key: string): Located | undefined {
    return cellOf(this.#facts.evaluation.installation, this.#located, key);
  }

  /** The row itself where it is a plain text. */
  get own(): string {
    return this.#facts.evaluation.installation.text(this.#located);
  }

  text(key: string): string | undefined {
    const cell = this.#cell(key);
    const text = cell === undefined ? '' : this.#facts.evaluation.installation.text(cell);
    return text === '' ? undefined : text;
  }

  number(key: string): number | undefined {
    const cell = this.#cell(key);
    const number = cell === undefined ? Number.NaN : this.#facts.evaluation.installation.number(cell);
    return Number.isFinite(number) ? number : undefined;
  }

  measure(key: string): Measure | undefined {
    const cell = this.#cell(key);
    return cell === undefined ? undefined : this.#facts.notation.ofEntry(cell);
  }
}

const MOST_NAMED = 3;

/** How a step says that a number is not known, and what would bring it. */
export function lacking(what: string, entries: readonly string[]): string {
  const named = entries.slice(0, MOST_NAMED).map((entry) => `'${entry}'`);
  const rest = entries.length > MOST_NAMED ? ' and others' : '';
  return `${what} is not known: enter ${named.join(', ')}${rest} in the file or its data sheet.`;
}
