import { CheckContext, type Evaluation, missingEntries, State, stepsOf } from '../../engine/index.ts';

/** A picture, or what stands in its place where its numbers are not available. */
export type Picture = PictureText & ({ readonly svg: string } | { readonly lacking: string });

export interface PictureText {
  /** `voltage`, `pressure`, `temperature`, `pump-curve`, `stroke`. */
  readonly id: string;
  readonly title: string;
  /** Undefined for a picture of all cases together. */
  readonly caseIndex: number | undefined;
}

/** Reads what a picture of one case needs, in the author's units, and notes what is not there. */
export class Reader {
  readonly evaluation: Evaluation;
  readonly caseIndex: number;
  readonly context: CheckContext;
  readonly #missing = new Set<string>();

  constructor(evaluation: Evaluation, caseIndex: number) {
    this.evaluation = evaluation;
    this.caseIndex = caseIndex;
    this.context = new CheckContext(evaluation, caseIndex, '');
  }

  get missing(): readonly string[] {
    return [...this.#missing];
  }

  /** A computed value in its internal unit; NaN, and noted as missing, where it is not available. */
  value(id: string): number {
    const number = this.known(id);
    if (number === undefined) for (const each of this.#lackOf(id)) this.#missing.add(each);
    return number ?? Number.NaN;
  }

  known(id: string): number | undefined {
    return this.evaluation.number(id, this.caseIndex);
  }

  /** The number of an entry; NaN, and noted as missing, where there is none. */
  entry(path: string): number {
    const number = this.knownEntry(path);
    if (number === undefined) this.#missing.add(path);
    return number ?? Number.NaN;
  }

  knownEntry(path: string): number | undefined {
    return this.evaluation.entryNumber(path, stepsOf(path));
  }

  /** The number of a case's own key, else of the entry that holds for all cases. */
  inCase(key: string, path: string): number | undefined {
    return this.evaluation.caseNumber(this.caseIndex, key) ?? this.knownEntry(path);
  }

  noteMissing(entries: readonly string[]): void {
    for (const each of entries) this.#missing.add(each);
  }

  /** With its unit, as the author writes it. */
  shown(number: number, kind: string): string {
    return this.context.show(number, kind);
  }

  /** The bare number in the author's unit, to be drawn. */
  drawn(number: number, kind: string): number {
    return Number.isFinite(number) ? this.context.unrounded(number, kind).number : Number.NaN;
  }

  unit(kind: string): string {
    return this.context.unrounded(0, kind).unit;
  }

  #lackOf(id: string): readonly string[] {
    const node = this.evaluation.network.byId.get(id);
    if (node === undefined || this.evaluation.state(node, this.caseIndex) === State.notApplicable) return [id];
    return missingEntries(this.evaluation, node, this.caseIndex);
  }
}

/** Draws a picture if all that it needs was there, else says in a sentence what it lacks. */
export function pictureOf(text: PictureText, reader: Reader, draw: () => string): Picture {
  return reader.missing.length === 0 ? { ...text, svg: draw() } : { ...text, lacking: lackOf(text, reader) };
}

function lackOf({ title }: PictureText, { evaluation, missing }: Reader): string {
  const isValue = (name: string) => evaluation.network.byId.has(name);
  const entries = missing.filter((name) => !isValue(name));
  const values = missing.filter(isValue);
  const reasons = [
    entries.length === 0 ? '' : `${entries.join(', ')} ${entries.length === 1 ? 'is' : 'are'} not entered`,
    values.length === 0 ? '' : `there is no ${values.join(', no ')} here`,
  ];
  return `Not drawn: ${title}. Reason: ${reasons.filter((reason) => reason !== '').join('; ')}.`;
}
