import { runAcross } from './checks/across/all.ts';
import { CATALOGUE } from './checks/catalogue.ts';
import type { Check } from './checks/declare.ts';
import { accepts } from './checks/deviation/accepts.ts';
import { judgeDeviations } from './checks/deviation/judge.ts';
import { reportCasesLeftOut, tolerancesTaken } from './checks/document/left-out.ts';
import { COMPILED_WINDOWS, NETWORK } from './checks/engine.ts';
import { NOT_APPLICABLE, Outcome } from './checks/outcome.ts';
import { judgePolicy, judgeRequired } from './checks/policy/judge.ts';
import { linkToRoots, type Rerun, type Root } from './checks/root-causes.ts';
import { runChecks, type Settled } from './checks/run-checks.ts';
import { runWindows } from './checks/run-windows.ts';
import { type Deviation, inForce, readDeviations } from './findings/deviations.ts';
import type { CheckStatus, Finding, Severity } from './findings/finding.ts';
import { admit, capped } from './findings/gate.ts';
import { placeOfDocument, placeOfNode } from './findings/places.ts';
import type { Policy } from './findings/policy.ts';
import type { RawFinding } from './findings/raw.ts';
import type { Document } from './format/document.ts';
import { type Corner, NOMINAL } from './links/corner.ts';
import { fingerprintOf } from './links/fingerprint.ts';
import type { Neighbours } from './links/fleet.ts';
import { Installation } from './links/installation.ts';
import { isInside } from './links/paths.ts';
import type { Reference } from './links/references.ts';
import type { WellFacts } from './links/well-facts.ts';
import { judgeVisit, type Visited } from './readings/judge.ts';
import type { Known } from './repository.ts';
import type { NodeIndex } from './syntax/tree.ts';
import type { Problem } from './text/problem.ts';
import { capitalise, withArticle } from './text/words.ts';
import { Evaluation } from './values/evaluation.ts';
import { LimitTable } from './values/limits.ts';
import { shiftsOf } from './windows/corners.ts';
import type { WindowReading } from './windows/reading.ts';

/** What checking one document needs; `lookUp` gives what is known of another path. */
export interface CheckRequest {
  readonly document: Document;
  readonly references: readonly Reference[];
  readonly root: string;
  readonly policy: Policy;
  /** Of an installation: what it is compared with others by, and the others. */
  readonly facts: WellFacts | undefined;
  readonly neighbours: Neighbours | undefined;
  /** Of readings: the installation that was visited, where it is known. */
  readonly visited?: Visited | undefined;
  readonly today: string;
  readonly lookUp: (path: string) => Known | undefined;
  /** The same file as it was checked before an edit, by the same policy on the same day. */
  readonly before?: Worked | undefined;
}

/** A document with its findings, and the status of every check of the catalogue. */
export interface CheckedFile {
  readonly document: Document;
  readonly findings: readonly Finding[];
  readonly statuses: ReadonlyMap<string, CheckStatus>;
  /** Of an installation: over its content, its data sheets and the policy. Computed when asked for. */
  readonly fingerprint: () => string | undefined;
  /** Of an installation: its values and windows, for worksheet, hover and checklist. */
  readonly worked: Worked | undefined;
  readonly policy: Policy;
}

export interface Worked {
  readonly evaluation: Evaluation;
  readonly windows: readonly WindowReading[];
  /** What checks came to, to be taken over where nothing of what they read has changed. */
  readonly settled: readonly (Settled | undefined)[];
}

export const INTERNAL = 'internal';
const SEVERITIES: ReadonlyMap<string, Severity> = new Map(CATALOGUE.map((check) => [check.id, check.severity]));
const CHECK_IDS: readonly string[] = [...SEVERITIES.keys()];
/** A policy cannot hide that the program failed. */
const SETTABLE: readonly string[] = CHECK_IDS.filter((id) => id !== INTERNAL);
/** A deviation cannot accept that it is none. */
const DEVIABLE: readonly string[] = SETTABLE.filter((id) => !id.startsWith('deviation.'));
/** Checks that must have left a status unless the run itself failed. */
const RUN_IDS: ReadonlySet<string> = new Set(
  CATALOGUE.flatMap((check) => (['run', 'window'].includes(check.foundBy) ? [check.id] : [])),
);
const NOTHING_RUN: CheckStatus = { status: 'not_run', missing: ['document'] };

type Sheets = ReadonlyMap<NodeIndex, Document>;

/** Runs every check of the catalogue on one document. A check that throws becomes an `internal` finding. */
export function checkDocument(request: CheckRequest): CheckedFile {
  const { document, policy, today } = request;
  const outcome = new Outcome();
  for (const problem of document.problems) reportProblem(document, problem, outcome);
  const sheets = resolveSheets(request, outcome);
  const worked = document.kind === 'installation' ? workOut(document, sheets, request, outcome) : undefined;
  if (document.kind === 'installation')
    outcome.attempt('the comparison with other wells', () =>
      runAcross(document, request.facts, request.neighbours, outcome),
    );
  if (document.kind === 'readings') judgeVisitOf(request, sheets, outcome);
  settleReading(document, outcome);
  for (const [part, reason] of outcome.broken) outcome.report(internal(document, part, reason));
  const deviations = document.kind === 'installation' ? readDeviations(document) : [];
  const effective = deviations.filter((each) => DEVIABLE.includes(each.check) && inForce(each, today));
  setAside(policy, outcome);
  outcome.linkConsequences();
  const roots = worked === undefined ? [] : linkToRoots(document, outcome, rerunOf(request, sheets, worked, effective));
  if (document.kind === 'policy') judgePolicy(document, SETTABLE, outcome);
  if (document.kind === 'installation') judgeWhole(request, deviations, roots, outcome);
  noteNotRun(document, outcome);
  // What is judged last may be set aside too.
  setAside(policy, outcome);
  const findings = admit(outcome.findings, (finding) => rule(finding, policy, effective));
  markDeviated(findings, effective, outcome);
  return {
    document,
    findings,
    statuses: completeStatuses(document, outcome.statuses),
    fingerprint: () =>
      document.kind === 'installation' ? fingerprintOf(withPolicy([document, ...sheets.values()], policy)) : undefined,
    worked,
    policy,
  };
}

function reportProblem(document: Document, problem: Problem, outcome: Outcome): void {
  const { check, message, span, fixes } = problem;
  outcome.report({
    check,
    severity: severityOf(problem),
    message,
    place: { document, key: document.tree.path(document.tree.nodeAt(span.start)), span },
    fixes: fixes.map((fix) => ({
      title: fix.title,
      kind: fix.kind,
      edits: fix.edits.map((edit) => ({ ...edit, path: document.path })),
    })),
  });
}

function severityOf({ check, severity }: Problem): Severity {
  return severity ?? SEVERITIES.get(check) ?? 'error';
}

/** The data sheets behind the entries; each reference that leads nowhere, or to a broken sheet, is one finding. */
function resolveSheets(request: CheckRequest, outcome: Outcome): ReadonlyMap<NodeIndex, Document> {
  const sheets = new Map<NodeIndex, Document>();
  for (const reference of request.references) {
    const fault = faultOf(reference, request);
    if (typeof fault !== 'string') sheets.set(reference.entry, fault.document);
    else outcome.report(referenceFinding(request, reference, fault));
  }
  return sheets;
}

type Fault = 'not-found' | 'outside-repository' | 'circular' | 'wrong-kind' | 'broken';

function faultOf(reference: Reference, request: CheckRequest): Fault | { readonly document: Document } {
  if (!isInside(reference.path, request.root) || isForeign(reference.written)) return 'outside-repository';
  // Data sheets refer to nothing, so the only circle is a document that names itself.
  if (reference.path === request.document.path) return 'circular';
  const known = request.lookUp(reference.path);
  if (known?.state === 'outside') return 'outside-repository';
  if (known?.state !== 'read') return 'not-found';
  const { document } = known;
  if (document.kind === reference.kind) return isBroken(document) ? 'broken' : { document };
  return document.kind === undefined && document.problems.length > 0 ? 'broken' : 'wrong-kind';
}

/** A reference is a path within the repository: no address, no drive letter, no path from the root of the machine. */
function isForeign(written: string): boolean {
  return /^[a-z][a-z0-9+.-]*:/i.test(written) || written.startsWith('/') || written.includes('\\');
}

function isBroken(document: Document): boolean {
  return document.problems.some((problem) => severityOf(problem) === 'error');
}

function referenceFinding(request: CheckRequest, reference: Reference, fault: Fault): RawFinding {
  const { document } = request;
  const place = placeOfNode(document, reference.node);
  const known = request.lookUp(reference.path);
  const sheet = known?.state === 'read' ? known.document : undefined;
  return {
    check: fault === 'broken' ? 'reference.broken' : `reference.${fault}`,
    severity: 'error',
    message: referenceMessage(reference, fault, known, sheet),
    place,
    related: sheet === undefined ? [] : relatedToSheet(sheet),
  };
}

function referenceMessage(
  { written, kind }: Reference,
  fault: Fault,
  known: Known | undefined,
  sheet: Document | undefined,
): string {
  switch (fault) {
    case 'not-found':
      return known?.state === 'unreadable'
        ? `The file '${written}' cannot be read: ${known.reason}.`
        : `There is no file '${written}' from here. Check the path; it counts from this file's folder.`;
    case 'outside-repository':
      return `'${written}' leads out of the repository. Data sheets are kept inside it, and named by a path from this file.`;
    case 'circular':
      return `'${written}' is this very file. Name the document that is meant, a ${kind}/1.`;
    case 'wrong-kind':
      return `'${written}' is ${withArticle(sheet?.label ?? 'file of another kind')}; a ${kind}/1 is due here.`;
    case 'broken':
      return `'${written}' has errors of its own, so nothing is read from it. Mend it first.`;
  }
}

function relatedToSheet(sheet: Document): { place: ReturnType<typeof placeOfDocument>; message: string }[] {
  const first = sheet.problems.find((problem) => severityOf(problem) === 'error');
  const own = placeOfDocument(sheet);
  return [
    first === undefined
      ? { place: own, message: `says it is ${withArticle(sheet.label)}` }
      : { place: { ...own, span: first.span }, message: first.message },
  ];
}

function workOut(
  document: Document,
  sheets: Sheets,
  { policy, today, before }: CheckRequest,
  outcome: Outcome,
): Worked | undefined {
  reportCasesLeftOut(document, outcome);
  return outcome.attempt('the working out of values', () => {
    const limits = new LimitTable(policy.limits);
    const evaluateAt = (corner: Corner, like: Evaluation | undefined) => {
      const evaluation = new Evaluation(new Installation(document, sheets, corner), NETWORK, limits, like);
      for (const [id, error] of evaluation.broken) outcome.noteBroken(`the value '${id}'`, error);
      return evaluation;
    };
    const evaluation = evaluateAt(NOMINAL, before?.evaluation);
    const entries = tolerancesTaken(document, [...sheets.values()], outcome);
    const shifts = shiftsOf(entries, COMPILED_WINDOWS, (corner) => evaluateAt(corner, evaluation));
    const windows = runWindows(evaluation, shifts, today, outcome);
    const settled = runChecks(evaluation, today, outcome, before?.settled);
    return { evaluation, windows, settled };
  });
}

/** The same checks once more, for what is found only because of a wrong entry; only what rests on it is worked out anew. */
function rerunOf(request: CheckRequest, sheets: Sheets, before: Worked, effective: readonly Deviation[]): Rerun {
  const { document, policy } = request;
  return {
    with: (quantities) => {
      const again = new Outcome();
      workOut({ ...document, quantities }, sheets, { ...request, before }, again);
      setAside(policy, again);
      again.linkConsequences();
      return again;
    },
    makes: (check) => RUN_IDS.has(check),
    isAccepted: (finding) => effective.some((each) => accepts(each, finding)),
    severityOf: ({ check, severity }) => capped(severity, policy.severities.get(check)),
  };
}

/** An installation that its reference does not lead to, or that has errors in its writing, judges nothing. */
function judgeVisitOf({ document, visited, today }: CheckRequest, sheets: Sheets, outcome: Outcome): void {
  const isReached = [...sheets.values()].some((each) => each === visited?.planned.document);
  outcome.attempt('the check of readings', () => judgeVisit(document, isReached ? visited : undefined, today, outcome));
}

function internal(document: Document, part: string, reason: string): RawFinding {
  return {
    check: INTERNAL,
    severity: 'error',
    message: `${capitalise(part)} failed itself (${reason}). All else went on; please report it with this file.`,
    place: placeOfDocument(document),
  };
}

/** Checks that come with the reading have passed where they found nothing; behind a broken syntax they could not run. */
function settleReading(document: Document, outcome: Outcome): void {
  const unread = document.problems.some(({ check }) => check === 'document.too-large' || check === 'document.not-text');
  for (const check of CATALOGUE) {
    if (check.foundBy !== 'reading' || !concerns(check, document) || outcome.statuses.has(check.id)) continue;
    if (unread) outcome.notRun(check.id, ['document']);
    else outcome.passed(check.id, undefined);
  }
}

function concerns(check: Check, { kind }: Document): boolean {
  // A file whose kind is not known can still be judged by how it is written.
  return kind === undefined ? check.foundBy === 'reading' : check.concerns.includes(kind);
}

function completeStatuses(
  document: Document,
  statuses: ReadonlyMap<string, CheckStatus>,
): ReadonlyMap<string, CheckStatus> {
  const complete = new Map<string, CheckStatus>();
  for (const check of CATALOGUE) {
    const otherwise: CheckStatus = concerns(check, document) ? NOTHING_RUN : NOT_APPLICABLE;
    complete.set(check.id, statuses.get(check.id) ?? otherwise);
  }
  return complete;
}

function setAside(policy: Policy, outcome: Outcome): void {
  for (const [check, reason] of policy.setAside) {
    if (!SETTABLE.includes(check)) continue;
    outcome.statuses.set(check, { status: 'set_aside', reason });
    outcome.withdraw(check);
  }
}

const NOT_RUN = 'document.not-run';
const MOST_NAMED = 3;

/** One note a file: how many checks were not run, and what they lack most. */
function noteNotRun(document: Document, outcome: Outcome): void {
  if (document.kind === undefined) return;
  const missing = new Map<string, number>();
  let count = 0;
  for (const status of outcome.statuses.values()) {
    if (status.status !== 'not_run') continue;
    count++;
    for (const entry of status.missing) missing.set(entry, (missing.get(entry) ?? 0) + 1);
  }
  if (count === 0) {
    outcome.passed(NOT_RUN, undefined);
    return;
  }
  const most = [...missing].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).slice(0, MOST_NAMED);
  const named = most.map(([entry]) => `'${entry}'`).join(', ');
  outcome.report({
    check: NOT_RUN,
    severity: 'note',
    message: `${count} ${count === 1 ? 'check was' : 'checks were'} not run; what is missing most is ${named}.`,
    place: placeOfDocument(document),
  });
}

/** What is said of an installation when all its checks are done. */
function judgeWhole(
  { document, policy, today }: CheckRequest,
  deviations: readonly Deviation[],
  roots: readonly Root[],
  outcome: Outcome,
): void {
  const statusOf = (id: string) => outcome.statuses.get(id) ?? (RUN_IDS.has(id) ? NOTHING_RUN : undefined);
  const isValue = (id: string) => NETWORK.byId.has(id);
  judgeRequired({ document, required: policy.required, statusOf, roots, isValue }, outcome);
  judgeDeviations({ document, deviations, checks: DEVIABLE, today }, outcome);
}

function rule(finding: RawFinding, policy: Policy, effective: readonly Deviation[]) {
  return {
    severity: capped(finding.severity, policy.severities.get(finding.check)),
    deviated: effective.some((each) => accepts(each, finding)),
  };
}

function markDeviated(findings: readonly Finding[], effective: readonly Deviation[], outcome: Outcome): void {
  for (const check of new Set(findings.map((each) => each.check))) {
    const own = findings.filter((each) => each.check === check);
    if (!own.every((each) => each.deviated)) continue;
    const deviation = effective.find((each) => each.check === check);
    outcome.statuses.set(check, {
      status: 'deviated',
      reason: deviation?.reason ?? '',
      until: deviation?.until ?? '',
    });
  }
}

function withPolicy(documents: readonly Document[], policy: Policy): readonly Document[] {
  return policy.document === undefined ? documents : [...documents, policy.document];
}
