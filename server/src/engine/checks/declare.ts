import type { Severity } from '../findings/finding.ts';
import type { CheckTexts } from '../findings/texts.ts';
import type { DocumentKind } from '../format/shape.ts';
import type { Condition, Inputs, Seen } from '../values/declare.ts';
import type { CheckContext } from './context.ts';

/** What a check says of one case; without a judgement it has passed there. */
export interface Judgement {
  /** Where: a dotted key of the installation. */
  readonly key: string;
  /** The fact with its numbers, the limit, the way out: one or two full sentences. */
  readonly message: string;
  /** Only where it is less than the check's own. */
  readonly severity?: Severity;
  readonly value?: Amount;
  readonly limit?: Amount;
  /** Entries that it rests on, by dotted key, each with a short text. */
  readonly related?: readonly { readonly key: string; readonly message: string }[];
  readonly fixes?: readonly Offer[];
  /** Case that it is about, where the check looked at all of them at once. */
  readonly caseIndex?: number;
  /**
   * Checks of which one reports the cause, if it does: then this is a consequence, and named with that finding instead
   * of being a second one.
   */
  readonly follows?: readonly string[];
}

/** A number in the internal unit of a kind. */
export interface Amount {
  readonly number: number;
  readonly kind: string;
}

/** A change of one entry's text, and of others that must change with it. */
export interface Offer extends EntryEdit {
  readonly title: string;
  readonly kind: 'mechanical' | 'offer';
  readonly also?: readonly EntryEdit[];
}

export interface EntryEdit {
  readonly key: string;
  readonly newText: string;
}

/** How far a passed check was from a finding, in the internal unit of a kind. */
export interface Margin {
  readonly margin: Amount;
}

/** Entries without which nothing can be said, where `needs` alone cannot tell. */
export interface Lacking {
  readonly lacks: readonly string[];
}

export type Verdict = Judgement | readonly Judgement[] | Margin | Lacking | undefined;

/** What is judged on its own within a check: all of it, or one protection of the many that it looks at. */
export interface Part {
  readonly when: readonly Condition[];
  readonly needs: Inputs;
  readonly run: (seen: never, context: CheckContext) => Verdict;
}

/** A check of the catalogue. */
export interface Check extends CheckTexts {
  /** Kinds of document that it concerns; it does not apply to others. */
  readonly concerns: readonly DocumentKind[];
  /** What is run; nothing where the findings come from elsewhere. */
  readonly parts: readonly Part[];
  /**
   * Where its findings come from: `run` from its parts, `reading` with syntax, format, quantities and references,
   * `window` from a bound, `file` from what looks at a checked file as a whole: deviations, policy, other files; `visit`
   * from comparing what came back from a well with its checklist.
   */
  readonly foundBy: 'run' | 'reading' | 'window' | 'file' | 'visit';
}

interface PartText<I extends Inputs> {
  readonly when?: readonly Condition[];
  readonly needs: I;
  readonly run: (seen: Seen<I>, context: CheckContext) => Verdict;
}

export function part<const I extends Inputs>({ when = [], needs, run }: PartText<I>): Part {
  return { when, needs, run: run as Part['run'] };
}

/** A check of an installation that looks at entries and values, in each case if one of them is per case. */
export function check<const I extends Inputs>({ when = [], needs, run, ...texts }: CheckTexts & PartText<I>): Check {
  return checkOfParts(texts, [part({ when, needs, run })]);
}

/** A check that says the same of several things, each with conditions, inputs and cases of its own. */
export function checkOfParts(texts: CheckTexts, parts: readonly Part[]): Check {
  return { ...texts, concerns: ['installation'], parts, foundBy: 'run' };
}

const EVERY_KIND: readonly DocumentKind[] = [
  'installation',
  'pump',
  'motor',
  'cable',
  'transformer',
  'drive',
  'gauge',
  'readings',
  'policy',
];

/** A check whose findings come with the reading of a document; the catalogue gives them severity, texts and status. */
export function foundInReading(texts: CheckTexts, concerns: readonly DocumentKind[] = EVERY_KIND): Check {
  return { ...texts, concerns, parts: [], foundBy: 'reading' };
}

/** A check whose findings come when the others are done: of deviations, policies, and of files beside each other. */
export function foundInFile(texts: CheckTexts, concerns: readonly DocumentKind[] = ['installation']): Check {
  return { ...texts, concerns, parts: [], foundBy: 'file' };
}

/** A check of the readings of a visit, beside the checklist of the installation that was visited. */
export function foundInVisit(texts: CheckTexts): Check {
  return { ...texts, concerns: ['readings'], parts: [], foundBy: 'visit' };
}
