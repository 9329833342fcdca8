import type { CheckStatus, Fix, Measure } from '../findings/finding.ts';
import { placeOfDocument, placeOfKey, placeOfNode } from '../findings/places.ts';
import type { Place, RawFinding } from '../findings/raw.ts';
import { NONE, stepsOf } from '../syntax/tree.ts';
import { type Evaluation, verdictOf } from '../values/evaluation.ts';
import { missingInputs } from '../values/missing.ts';
import { CheckContext } from './context.ts';
import type { Amount, Judgement, Lacking, Margin, Offer, Verdict } from './declare.ts';
import { COMPILED_CHECKS, type CompiledCheck } from './engine.ts';
import { bothOf, NOT_APPLICABLE, notRunFor, type Outcome, PASSED, passedBy } from './outcome.ts';

/** What a check without a finding came to, told of no text: it holds for as long as what the check reads does. */
export interface Settled {
  readonly status: CheckStatus;
  /** How far inside a passed check was, in the cases of which it says so. */
  readonly margins: readonly CaseMargin[];
}

interface CaseMargin {
  readonly caseIndex: number;
  readonly amount: Amount;
}

/**
 * Runs every check of an installation that is not a bound; a check that throws is noted and the others go on.
 * @param before what they came to in the evaluation that this one was made from, by place in the list of checks
 * @returns what can be taken over in the same way next time
 */
export function runChecks(
  evaluation: Evaluation,
  today: string,
  outcome: Outcome,
  before: readonly (Settled | undefined)[] = [],
): readonly (Settled | undefined)[] {
  // What concerns the whole file stands in the first, also without a case.
  const contexts = Array.from(
    { length: Math.max(1, evaluation.caseCount) },
    (_, at) => new CheckContext(evaluation, at, today),
  );
  return COMPILED_CHECKS.map((compiled, at) => {
    const known = evaluation.changes?.touch(compiled.reads) === false ? before[at] : undefined;
    const settled = known ?? runCheck(evaluation, compiled, contexts, outcome);
    if (settled !== undefined) outcome.settle(compiled.check.id, statusIn(settled, contexts));
    return settled;
  });
}

function statusIn({ status, margins }: Settled, contexts: readonly CheckContext[]): CheckStatus {
  if (status.status !== 'passed') return status;
  const measure = ({ caseIndex, amount }: CaseMargin) => measureOf(contexts[caseIndex] as CheckContext, amount);
  return passedBy(margins.map((margin) => () => measure(margin)));
}

/** Runs a check and reports what it finds; gives what it came to where that rests on its declared inputs alone. */
function runCheck(
  evaluation: Evaluation,
  compiled: CompiledCheck,
  contexts: readonly CheckContext[],
  outcome: Outcome,
): Settled | undefined {
  const run = new CheckRun(evaluation, compiled, contexts);
  const isDone = outcome.attempt(`the check '${compiled.check.id}'`, () => run.inAllCases());
  const { settled, worst } = run;
  if (isDone === true && worst === undefined && !run.looksAround) return settled;
  if (settled !== undefined) outcome.settle(compiled.check.id, statusIn(settled, contexts));
  for (const judgement of worst?.judgements ?? []) report(compiled, judgement, (worst as Judged).context, outcome);
  return undefined;
}

/** What a check found in one case. Of several cases the worst is reported: the others are the same mistake. */
interface Judged {
  readonly judgements: readonly Judgement[];
  readonly context: CheckContext;
  readonly excess: number;
}

const NO_MARGINS: readonly CaseMargin[] = [];

class CheckRun {
  settled: Settled | undefined;
  worst: Judged | undefined;
  /** Whether it looked at something that it does not declare as an input. */
  looksAround = false;
  readonly #evaluation: Evaluation;
  readonly #compiled: CompiledCheck;
  readonly #contexts: readonly CheckContext[];

  constructor(evaluation: Evaluation, compiled: CompiledCheck, contexts: readonly CheckContext[]) {
    this.#evaluation = evaluation;
    this.#compiled = compiled;
    this.#contexts = contexts;
  }

  inAllCases(): true {
    const times = this.#compiled.perCase ? this.#evaluation.caseCount : 1;
    if (times === 0) this.#settle(notRunFor(['operation.cases']));
    for (let at = 0; at < times; at++) this.#inCase(at);
    return true;
  }

  #inCase(at: number): void {
    const { inputs } = this.#compiled;
    const verdict = verdictOf(this.#evaluation, this.#compiled, at);
    if (verdict === 'fails' || !this.#evaluation.allApply(inputs, at)) this.#settle(NOT_APPLICABLE);
    else if (verdict === 'lacking') this.#settle(notRunFor(lacking(this.#compiled, this.#evaluation, at)));
    else this.#judge(this.#evaluation.gather(inputs, at), this.#contexts[at] as CheckContext);
  }

  #judge(seen: unknown, context: CheckContext): void {
    const { inputs, part } = this.#compiled;
    if (seen === undefined) {
      this.#settle(notRunFor(missingInputs(this.#evaluation, inputs, context.caseIndex)));
      return;
    }
    context.looksAround = false;
    const result = (part.run as (seen: unknown, context: CheckContext) => Verdict)(seen, context);
    this.looksAround ||= context.looksAround;
    const judgements = judgementsIn(result);
    if (judgements.length > 0) this.#weigh({ judgements, context, excess: Math.max(...judgements.map(excessOf)) });
    else if (isLacking(result)) this.#settle(notRunFor(result.lacks));
    else this.#settle(PASSED, isMargin(result) ? { caseIndex: context.caseIndex, amount: result.margin } : undefined);
  }

  #weigh(judged: Judged): void {
    if (this.worst === undefined || judged.excess > this.worst.excess) this.worst = judged;
  }

  #settle(status: CheckStatus, margin?: CaseMargin): void {
    const both = this.settled === undefined ? status : bothOf(this.settled.status, status);
    const margins = this.settled?.margins ?? NO_MARGINS;
    this.settled = { status: both, margins: margin === undefined ? margins : [...margins, margin] };
  }
}

function lacking(compiled: CompiledCheck, evaluation: Evaluation, at: number): string[] {
  return compiled.conditions
    .filter(({ test }) => test(evaluation, at) === 'lacking')
    .map(({ condition }) => ('path' in condition ? condition.path : condition.caseKey));
}

function judgementsIn(verdict: Verdict): readonly Judgement[] {
  if (verdict === undefined || isMargin(verdict) || isLacking(verdict)) return [];
  return 'message' in verdict ? [verdict] : verdict;
}

function isLacking(verdict: Verdict): verdict is Lacking {
  return verdict !== undefined && 'lacks' in verdict;
}

function isMargin(verdict: Verdict): verdict is Margin {
  return verdict !== undefined && 'margin' in verdict;
}

/** How far beyond its limit a value is, as a share of the limit; an error always outweighs a warning. */
function excessOf({ value, limit, severity }: Judgement): number {
  const weight = severity === 'warning' ? 0 : severity === 'note' ? -1e6 : 1e6;
  if (value === undefined || limit === undefined || limit.number === 0) return weight;
  return weight + Math.abs(value.number / limit.number - 1);
}

function report(compiled: CompiledCheck, judgement: Judgement, context: CheckContext, outcome: Outcome): void {
  const { check, perCase } = compiled;
  const { key, value, limit } = judgement;
  const finding: RawFinding = {
    check: check.id,
    severity: judgement.severity ?? check.severity,
    message: judgement.message,
    place: placeIn(context.evaluation, key),
    case: caseNameOf(context, judgement, perCase),
    value: value && measureOf(context, value, key),
    limit: limit && measureOf(context, limit, key),
    related: (judgement.related ?? []).flatMap((each) => relatedPlace(context.evaluation, each)),
    fixes: (judgement.fixes ?? []).flatMap((offer) => fixOf(context.evaluation, offer) ?? []),
  };
  if (judgement.follows === undefined) outcome.report(finding);
  else outcome.reportConsequence(finding, judgement.follows);
}

function caseNameOf(context: CheckContext, { caseIndex }: Judgement, perCase: boolean): string | undefined {
  if (caseIndex !== undefined) return context.evaluation.caseName(caseIndex);
  return perCase ? context.caseName : undefined;
}

export function measureOf(context: CheckContext, { number, kind }: Amount, key = ''): Measure {
  return context.measure(number, kind, key);
}

/**
 * Where something of an entry is reported: at the entry in the installation; for an entry of a data sheet at the
 * reference to that sheet; for an absent one where it should be.
 */
export function placeIn(evaluation: Evaluation, key: string): Place {
  const { document } = evaluation.installation;
  if (key === '') return placeOfDocument(document);
  const node = document.tree.find(key);
  if (node !== NONE) return placeOfNode(document, node);
  const located = evaluation.locate(key);
  if (located === undefined || located.document === document) return placeOfKey(document, key);
  return placeOfKey(document, `${slotOf(document, key)}.datasheet`);
}

/** The part of a key that names a piece of equipment in this file. */
function slotOf(document: Place['document'], key: string): string {
  const steps = stepsOf(key);
  let node = document.tree.root;
  for (const step of steps) {
    const next = typeof step === 'number' ? document.tree.item(node, step) : document.tree.child(node, step);
    if (next === NONE) break;
    node = next;
  }
  return document.tree.path(node);
}

export function relatedPlace(
  evaluation: Evaluation,
  { key, message }: { readonly key: string; readonly message: string },
): { place: Place; message: string }[] {
  const located = evaluation.locate(key);
  return located === undefined ? [] : [{ place: placeOfNode(located.document, located.node), message }];
}

/** A fix that changes entries of the installation itself, all or none; sheets are shared and are not changed from here. */
export function fixOf(evaluation: Evaluation, offer: Offer): Fix | undefined {
  const { document } = evaluation.installation;
  const edits = [offer, ...(offer.also ?? [])].flatMap(({ key, newText }) => {
    const node = document.tree.find(key);
    if (node === NONE || !document.tree.isScalar(node)) return [];
    return [{ path: document.path, span: document.tree.span(node), newText }];
  });
  if (edits.length <= (offer.also?.length ?? 0)) return undefined;
  return { title: offer.title, kind: offer.kind, edits };
}
