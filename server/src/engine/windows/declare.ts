import type { CheckTexts } from '../findings/texts.ts';
import {
  type Condition,
  type Input,
  type Inputs,
  type Method,
  type Outcome,
  type Seen,
  type ValueDeclaration,
  value,
} from '../values/declare.ts';
import type { Evaluation } from '../values/evaluation.ts';

export type Side = 'lower' | 'upper';

/**
 * One bound of a setpoint's window. From the one declaration come the check, its margin and its texts, the line on the
 * worksheet's ruler, and the range on the checklist.
 */
export interface Bound {
  /** Id of its own: that of its check, or below it where one check has several bounds. */
  readonly id: string;
  readonly check: CheckTexts;
  readonly side: Side;
  /** A setpoint beyond a hard bound is wrong; beyond a soft one it is uncomfortable. */
  readonly hard: boolean;
  /** The bound as a noun: "the pressure at the intake with the well at rest". */
  readonly limitName: string;
  /** What happens beyond it: "the unit could never start". */
  readonly consequence: string;
  /** Whether the bound itself is outside; only where the setpoint must clear it. */
  readonly excludesItself: boolean;
  /** What is said of a setpoint beyond it, where "X is so much below the limit" is not how one says it. */
  readonly says: ((words: Beyond) => string) | undefined;
  /** Its place in the network: `bound:` and its id. */
  readonly value: ValueDeclaration;
}

/** A setpoint beyond a bound, in words. */
export interface Beyond {
  /** "Tap 3 (980 V)". */
  readonly subject: string;
  /** How far beyond: "62 V". */
  readonly apart: string;
  readonly limit: string;
  /** " in the case 'target'", or nothing. */
  readonly inCase: string;
}

/** The ends of a window in the internal unit; infinite where nothing bounds it. */
export interface WindowEnds {
  readonly hardLower: number;
  readonly hardUpper: number;
  /** The comfortable range, inside the hard one. */
  readonly lower: number;
  readonly upper: number;
}

export interface Recommendation {
  /** The rule in words. */
  readonly rule: string;
  readonly inputs: Inputs;
  readonly choose: (seen: never, ends: WindowEnds) => number;
}

/** The window of a setpoint. */
export interface Window {
  /** Dotted key of the setpoint. */
  readonly setpoint: string;
  /** As a noun with its article: "the intake-pressure trip". */
  readonly title: string;
  readonly kind: string;
  /** The number that is compared: the entry itself, or what the entry stands for. */
  readonly compared: Input<number>;
  /** Conditions under which there is such a setpoint at all. */
  readonly when: readonly Condition[];
  readonly bounds: readonly Bound[];
  readonly recommendation: Recommendation | undefined;
  /** The check that reports a window in which nothing fits. */
  readonly emptiness: CheckTexts;
  /** A mistake that would explain why a setpoint is outside; it is reported in place of the bound. */
  readonly diagnosis?: Diagnosis;
  /** The numbers that can be chosen, where they are few: a window without one of them is as good as empty. */
  readonly choices?: (evaluation: Evaluation) => readonly number[] | undefined;
  /** The setpoint with its value, where "the trip of 12 bar" is not how one says it; `text` gives entries as written. */
  readonly named?: (shown: string, text: (key: string) => string) => string;
  /** How the recommended number is said and written, where it is not simply the entry's new value. */
  readonly choice?: (evaluation: Evaluation, recommended: number) => Choice | undefined;
}

/** A mistake of the pen that puts a setpoint outside of its window. */
export interface Diagnosis {
  readonly check: CheckTexts;
  /** One or two full sentences if this is the mistake; `show` gives a number in the author's unit. */
  readonly explain: (setpoint: number, ends: WindowEnds, show: (number: number) => string) => string | undefined;
}

/** A recommended setpoint in words, and as the entries that it sets. */
export interface Choice {
  /** "Tap 4 (1050 V)". */
  readonly words: string;
  /** What is said of it: "is the lowest that serves". */
  readonly because: string;
  readonly entries: readonly { readonly key: string; readonly newText: string }[];
}

interface BoundText<I extends Inputs> {
  readonly check: CheckTexts;
  /** Only where one check has several bounds. */
  readonly id?: string;
  readonly side: Side;
  readonly hard: boolean;
  readonly limitName: string;
  readonly consequence: string;
  readonly excludesItself?: boolean;
  readonly says?: (words: Beyond) => string;
  readonly kind: string;
  readonly when?: readonly Condition[];
  readonly formula: string;
  readonly inputs: I;
  readonly compute: (seen: Seen<I>) => number | Outcome;
}

export function bound<const I extends Inputs>(text: BoundText<I>): Bound {
  const id = text.id ?? text.check.id;
  const only: Method = {
    when: text.when ?? [],
    formula: text.formula,
    source: text.check.source,
    inputs: text.inputs,
    without: 'the bound has no solution',
    assumes: undefined,
    compute: text.compute as Method['compute'],
  };
  const { check, side, hard, limitName, consequence } = text;
  return {
    ...{ id, check, side, hard, limitName, consequence },
    excludesItself: text.excludesItself ?? false,
    says: text.says,
    value: { id: `bound:${id}`, title: limitName, kind: text.kind, methods: [only] },
  };
}

/** A bound that is a value of the handbook as it stands. */
export function boundAt(id: string, text: Omit<BoundText<Inputs>, 'inputs' | 'compute' | 'formula'>): Bound {
  return bound({ ...text, formula: id, inputs: { number: value(id) }, compute: ({ number }) => number });
}

export function recommend<const I extends Inputs>(text: {
  readonly rule: string;
  readonly inputs: I;
  readonly choose: (seen: Seen<I>, ends: WindowEnds) => number;
}): Recommendation {
  return { rule: text.rule, inputs: text.inputs, choose: text.choose as Recommendation['choose'] };
}
