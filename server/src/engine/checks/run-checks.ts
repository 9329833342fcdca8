import type { Fix, Measure } from '../findings/finding.ts';
import { placeOfDocument, placeOfKey, placeOfNode } from '../findings/places.ts';
import type { Place, RawFinding } from '../findings/raw.ts';
import { NONE, stepsOf } from '../syntax/tree.ts';
import { type Evaluation, verdictOf } from '../values/evaluation.ts';
import { missingInputs } from '../values/missing.ts';
import { CheckContext } from './context.ts';
import type { Amount, Judgement, Lacking, Margin, Offer, Verdict } from './declare.ts';
import { COMPILED_CHECKS, type CompiledCheck } from './engine.ts';
import type { Outcome } from './outcome.ts';

/** Runs every check of an installation that is not a bound; a check that throws is noted and the others go on. */
export function runChecks(evaluation: Evaluation, today: string, outcome: Outcome): void {
  // What concerns the whole file stands in the first, also without a case.
  const contexts = Array.from(
    { length: Math.max(1, evaluation.caseCount) },
    (_, at) => new CheckContext(evaluation, at, today),
  );
  for (const compiled of COMPILED_CHECKS) {
    outcome.attempt(`the check '${compiled.check.id}'`, () => runCheck(evaluation, compiled, contexts, outcome));
  }
}

function runCheck(
  evaluation: Evaluation,
  compiled: CompiledCheck,
  contexts: readonly CheckContext[],
  outcome: Outcome,
): void {
  const times = compiled.perCase ? evaluation.caseCount : 1;
  if (times === 0) outcome.notRun(compiled.check.id, ['operation.cases']);
  let worst: Judged | undefined;
  for (let at = 0; at < times; at++) {
    const judged = runInCase(evaluation, compiled, contexts[at] as CheckContext, outcome);
    if (judged !== undefined && (worst === undefined || judged.excess > worst.excess)) worst = judged;
  }
  if (worst === undefined) return;
  for (const judgement of worst.judgements) report(compiled, judgement, worst.context, outcome);
}

/** What a check found in one case. Of several cases the worst is reported: the others are the same mistake. */
interface Judged {
  readonly judgements: readonly Judgement[];
  readonly context: CheckContext;
  readonly excess: number;
}

function runInCase(
  evaluation: Evaluation,
  compiled: CompiledCheck,
  context: CheckContext,
  outcome: Outcome,
): Judged | undefined {
  const { check, part } = compiled;
  const at = context.caseIndex;
  const verdict = verdictOf(evaluation, compiled, at);
  if (verdict === 'fails' || !evaluation.allApply(compiled.inputs, at)) {
    outcome.notApplicable(check.id);
    return undefined;
  }
  const seen = verdict === 'holds' ? evaluation.gather(compiled.inputs, at) : undefined;
  if (seen === undefined) {
    outcome.notRun(
      check.id,
      verdict === 'lacking' ? lacking(compiled, evaluation, at) : missingInputs(evaluation, compiled.inputs, at),
    );
    return undefined;
  }
  const result = (part.run as (seen: unknown, context: CheckContext) => Verdict)(seen, context);
  if (isLacking(result)) {
    outcome.notRun(check.id, result.lacks);
    return undefined;
  }
  const judgements = judgementsIn(result);
  if (judgements.length === 0) {
    outcome.passed(check.id, isMargin(result) ? () => measureOf(context, result.margin) : undefined);
    return undefined;
  }
  return { judgements, context, excess: Math.max(...judgements.map(excessOf)) };
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
