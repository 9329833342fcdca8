/**
 * How a computation says what it needs. A declaration names its inputs statically, so that the order of computation,
 * what is per case, what is missing and where each number came from follow from the declaration alone.
 */

/** A default that a computation may use in place of an absent entry; always listed with its source. */
export interface Assumption {
  readonly number: number;
  readonly source: string;
}

/** A number from an entry of the installation or of the data sheet behind it; `inCase` is the case's key that overrides it. */
export interface EntrySource {
  readonly from: 'entry';
  readonly path: string;
  readonly optional: boolean;
  readonly inCase: string | undefined;
  readonly assumed: Assumption | undefined;
}

/** A text (a choice, a name) from an entry; `inCase` as above. */
export interface TextSource {
  readonly from: 'text';
  readonly path: string;
  readonly optional: boolean;
  readonly inCase: string | undefined;
  readonly assumed: string | undefined;
}

/** A number that only a case carries. */
export interface CaseSource {
  readonly from: 'case';
  readonly key: string;
  readonly optional: boolean;
}

/** Another computed value, in the same case. */
export interface ValueSource {
  readonly from: 'value';
  readonly id: string;
  readonly optional: boolean;
}

/** A computed value in every case; `complete` asks that each case to which it applies has it. */
export interface EachCaseSource {
  readonly from: 'each';
  readonly id: string;
  readonly complete: boolean;
}

/** A text of every case, such as its `intake`. */
export interface EachTextSource {
  readonly from: 'each-text';
  readonly key: string;
}

export type Column = 'number' | 'text' | 'number?' | 'text?';

/** A list of rows (taps, curve points, survey stations, cable sections); a single mapping counts as one row. */
export interface RowsSource {
  readonly from: 'rows';
  readonly path: string;
  readonly optional: boolean;
  readonly columns: Readonly<Record<string, Column>>;
}

/** A limit that a policy may change. */
export interface LimitSource {
  readonly from: 'limit';
  readonly name: string;
}

/** Whether an entry is there at all; a computation that asks so never lacks it. */
export interface PresenceSource {
  readonly from: 'presence';
  readonly path: string;
}

export type Source =
  | PresenceSource
  | EntrySource
  | TextSource
  | CaseSource
  | ValueSource
  | EachCaseSource
  | EachTextSource
  | RowsSource
  | LimitSource;

declare const seen: unique symbol;

/** A source together with the type that a computation sees. */
export interface Input<T> {
  readonly source: Source;
  readonly [seen]?: () => T;
}
export type Inputs = Readonly<Record<string, Input<unknown>>>;
export type Seen<I extends Inputs> = { readonly [K in keyof I]: I[K] extends Input<infer T> ? T : never };

/** A required number from an entry, in its kind's internal unit; pressures absolute. */
export function entry(path: string, inCase?: string): Input<number> {
  return { source: { from: 'entry', path, optional: false, inCase, assumed: undefined } };
}

/** A number from an entry that has a stated default. */
export function entryOr(path: string, number: number, source: string, inCase?: string): Input<number> {
  return { source: { from: 'entry', path, optional: false, inCase, assumed: { number, source } } };
}

export function optionalEntry(path: string, inCase?: string): Input<number | undefined> {
  return { source: { from: 'entry', path, optional: true, inCase, assumed: undefined } };
}

export function text(path: string, assumed?: string, inCase?: string): Input<string> {
  return { source: { from: 'text', path, optional: false, inCase, assumed } };
}

export function optionalText(path: string): Input<string | undefined> {
  return { source: { from: 'text', path, optional: true, inCase: undefined, assumed: undefined } };
}

/** Whether an entry or a group of entries is there, in the installation or behind it. */
export function isPresent(path: string): Input<boolean> {
  return { source: { from: 'presence', path } };
}

/** A number that the case itself must carry. */
export function inCase(key: string): Input<number> {
  return { source: { from: 'case', key, optional: false } };
}

/** A text of the case (`intake`, `cable`), or what it means when the case is silent. */
export function caseText(key: string, assumed?: string): Input<string> {
  return { source: { from: 'text', path: '', optional: false, inCase: key, assumed } };
}

export function optionalInCase(key: string): Input<number | undefined> {
  return { source: { from: 'case', key, optional: true } };
}

export function value(id: string): Input<number> {
  return { source: { from: 'value', id, optional: false } };
}

export function optionalValue(id: string): Input<number | undefined> {
  return { source: { from: 'value', id, optional: true } };
}

/** The value in all cases; NaN in those that it does not apply to. Not available while one case still lacks it. */
export function eachCase(id: string): Input<readonly number[]> {
  return { source: { from: 'each', id, complete: true } };
}

/** The value in all cases; NaN wherever it is not available. */
export function knownCases(id: string): Input<readonly number[]> {
  return { source: { from: 'each', id, complete: false } };
}

export function eachCaseText(key: string): Input<readonly (string | undefined)[]> {
  return { source: { from: 'each-text', key } };
}

type Cell<C extends Column> = C extends 'number'
  ? number
  : C extends 'text'
    ? string
    : C extends 'number?'
      ? number | undefined
      : string | undefined;
export type Row<C extends Readonly<Record<string, Column>>> = { readonly [K in keyof C]: Cell<C[K]> };

export function rows<const C extends Readonly<Record<string, Column>>>(
  path: string,
  columns: C,
): Input<readonly Row<C>[]> {
  return { source: { from: 'rows', path, optional: false, columns } };
}

export function optionalRows<const C extends Readonly<Record<string, Column>>>(
  path: string,
  columns: C,
): Input<readonly Row<C>[] | undefined> {
  return { source: { from: 'rows', path, optional: true, columns } };
}

/** A limit of the policy, in the internal unit of its kind. */
export function limit(name: string): Input<number> {
  return { source: { from: 'limit', name } };
}

/**
 * A condition under which a method applies. `present: false` asks for the absence of an entry; `isNot` holds where the
 * entry says something else, or nothing.
 */
export type Condition =
  | { readonly path: string; readonly is: readonly string[] }
  | { readonly path: string; readonly isNot: readonly string[] }
  /** Written in the second dimension that its kind takes: a viscosity in cSt. */
  | { readonly path: string; readonly alternate: true }
  | { readonly caseKey: string; readonly is: readonly string[] }
  | { readonly path: string; readonly present: boolean }
  | { readonly caseKey: string; readonly present: boolean };

/** A result together with what decided it. */
export interface Outcome {
  readonly number: number;
  /** End of the supply tolerance that gave the worse number. */
  readonly supply?: 'low' | 'high';
  /** Index of the case that decided a value of the whole file. */
  readonly caseIndex?: number;
  /** Which of several limits binds, in words. */
  readonly binding?: string;
}

/** One way to arrive at a value: when it applies, what it needs, and how it computes. */
export interface Method {
  readonly when: readonly Condition[];
  /** As a reader would write it; names as in the handbook. */
  readonly formula: string;
  /** Publication, or "common practice, no source"; "from memory" where no copy was at hand. */
  readonly source: string;
  readonly inputs: Inputs;
  /** Why there may be no number although all inputs are there. */
  readonly without: string;
  /** What this method assumes in place of a better one; listed with the value as a default. */
  readonly assumes: string | undefined;
  readonly compute: (seen: never) => number | Outcome;
}

export interface ValueDeclaration {
  readonly id: string;
  readonly title: string;
  /** Name of its quantity kind; the number is in that kind's internal unit, pressures absolute. */
  readonly kind: string;
  readonly methods: readonly Method[];
}

interface MethodText<I extends Inputs> {
  readonly when?: readonly Condition[];
  readonly formula: string;
  readonly source: string;
  readonly inputs: I;
  readonly without?: string;
  readonly assumes?: string;
  readonly compute: (seen: Seen<I>) => number | Outcome;
}

/** One method of a value; the types of what `compute` sees follow from `inputs`. */
export function method<const I extends Inputs>(text: MethodText<I>): Method {
  return {
    when: text.when ?? [],
    formula: text.formula,
    source: text.source,
    inputs: text.inputs,
    without: text.without ?? 'the inputs allow no such number',
    assumes: text.assumes,
    compute: text.compute as Method['compute'],
  };
}

/** A value with several methods; the first that applies and has its inputs is used. */
export function valueBy(id: string, title: string, kind: string, methods: readonly Method[]): ValueDeclaration {
  return { id, title, kind, methods };
}

/** A value with one method. */
export function declareValue<const I extends Inputs>(
  declaration: { readonly id: string; readonly title: string; readonly kind: string } & MethodText<I>,
): ValueDeclaration {
  return valueBy(declaration.id, declaration.title, declaration.kind, [method(declaration)]);
}
