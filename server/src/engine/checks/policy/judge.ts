import type { CheckStatus } from '../../findings/finding.ts';
import { placeOfDocument, placeOfNode } from '../../findings/places.ts';
import type { RawFinding } from '../../findings/raw.ts';
import { guesser } from '../../format/distance.ts';
import type { Document } from '../../format/document.ts';
import { shorten } from '../../format/kind.ts';
import { kindNamed } from '../../quantity/kinds.ts';
import type { NodeIndex } from '../../syntax/tree.ts';
import type { Span } from '../../text/span.ts';
import { listed } from '../../text/words.ts';
import { LIMITS, takesLimit } from '../../values/limits.ts';
import type { Check } from '../declare.ts';
import type { Outcome } from '../outcome.ts';
import type { Root } from '../root-causes.ts';
import { POLICY_REQUIRED_NOT_RUN, POLICY_UNKNOWN_CHECK, POLICY_UNKNOWN_LIMIT } from './texts.ts';

/** Looks at the names in a policy: checks and limits that there are not, limits of another dimension. */
export function judgePolicy(document: Document, checks: readonly string[], outcome: Outcome): void {
  const { tree } = document;
  const knownChecks = namesOf(POLICY_UNKNOWN_CHECK, checks);
  for (const node of namedUnder(document, 'checks')) {
    judgeName(document, node, tree.key(node), tree.keySpan(node), knownChecks, outcome);
  }
  for (const node of tree.children(tree.find('require'))) {
    judgeName(document, node, tree.scalar(node), tree.span(node), knownChecks, outcome);
  }
  const knownLimits = namesOf(
    POLICY_UNKNOWN_LIMIT,
    LIMITS.map(({ name }) => name),
  );
  for (const node of namedUnder(document, 'limits')) {
    judgeName(document, node, tree.key(node), tree.keySpan(node), knownLimits, outcome);
  }
  judgeDimensions(document, outcome);
  for (const { id } of [POLICY_UNKNOWN_CHECK, POLICY_UNKNOWN_LIMIT]) outcome.passed(id, undefined);
}

function judgeDimensions(document: Document, outcome: Outcome): void {
  for (const node of namedUnder(document, 'limits')) {
    const quantity = document.quantities[node];
    const declared = LIMITS.find(({ name }) => name === document.tree.key(node));
    if (quantity === undefined || declared === undefined || takesLimit(declared.name, quantity)) continue;
    const kind = kindNamed(declared.kind);
    outcome.report({
      check: 'units.wrong-dimension',
      severity: 'error',
      message: `The limit '${declared.name}' is ${kind?.phrase}, in ${listed(kind?.usual ?? [])}; '${document.tree.scalar(node)}' is not, so the default holds.`,
      place: placeOfNode(document, node),
    });
  }
}

/** Entries under a key of a policy, without those of the author's own. */
function namedUnder({ tree }: Document, key: string): readonly NodeIndex[] {
  return [...tree.children(tree.find(key))].filter((node) => !tree.key(node).startsWith('x_'));
}

/** The names that a part of a policy may hold, and the check that finds others. */
interface Names {
  readonly check: Check;
  readonly known: ReadonlySet<string>;
  readonly guess: (name: string) => string | undefined;
}

function namesOf(check: Check, known: readonly string[]): Names {
  return { check, known: new Set(known), guess: guesser(known) };
}

function judgeName(
  document: Document,
  node: NodeIndex,
  name: string,
  span: Span,
  { check, known, guess }: Names,
  outcome: Outcome,
): void {
  if (name === '' || known.has(name)) return;
  const what = check === POLICY_UNKNOWN_LIMIT ? 'limit' : 'check';
  const near = guess(name);
  const hint = near === undefined ? '' : ` Was '${near}' meant?`;
  const edits = near === undefined ? [] : [{ path: document.path, span, newText: near }];
  outcome.report({
    check: check.id,
    severity: check.severity,
    message: `There is no ${what} '${shorten(name)}', so this entry changes nothing.${hint}`,
    place: { ...placeOfNode(document, node), span },
    fixes: near === undefined ? [] : [{ title: `Write '${near}'`, kind: 'mechanical', edits }],
  });
}

/** What a policy requires of a file, how its checks ended, and what is known to be wrong in it. */
export interface Requirement {
  readonly document: Document;
  readonly required: readonly string[];
  readonly statusOf: (check: string) => CheckStatus | undefined;
  readonly roots: readonly Root[];
  /** Whether that is computed; what is not is an entry. */
  readonly isValue: (id: string) => boolean;
}

/**
 * What a policy requires, and could not be run on this file, is a finding: what is missing has to be entered. Where a
 * finding already says what keeps it from running, it is named there.
 */
export function judgeRequired(requirement: Requirement, outcome: Outcome): void {
  const { document, required, statusOf } = requirement;
  for (const check of new Set(required)) {
    const status = statusOf(check);
    if (status?.status !== 'not_run') continue;
    const finding = notRunFinding(document, check, status.missing);
    const cause = causeOf(check, status.missing, requirement, outcome);
    if (cause === undefined) outcome.report(finding);
    else outcome.nameConsequence(cause, finding);
  }
  outcome.passed(POLICY_REQUIRED_NOT_RUN.id, undefined);
}

function notRunFinding(document: Document, check: string, missing: readonly string[]): RawFinding {
  const named = listed(missing.map((each) => `'${each}'`));
  const lack = missing.length === 1 ? 'is not known' : 'are not known';
  return {
    check: POLICY_REQUIRED_NOT_RUN.id,
    severity: POLICY_REQUIRED_NOT_RUN.severity,
    message: `The policy requires the check '${check}', and it could not be run: ${named} ${lack}. Enter what is missing, or mend what keeps it from being worked out.`,
    place: placeOfDocument(document),
  };
}

/** Values that there cannot be while one of some checks finds something. */
const KEPT_BY: Readonly<Record<string, readonly string[]>> = {
  'intake.running_pressure': ['pump.no-operating-point'],
  'pump.rate': ['pump.no-operating-point'],
  'transformer.tap_voltage': ['tap.not-on-transformer'],
  'transformer.tap_need': ['motor.terminal-voltage', 'transformer.flux', 'transformer.overload', 'pump.thrust'],
};

/** An error that keeps a check from being run, if there is one for all that it lacks. */
function causeOf(
  check: string,
  missing: readonly string[],
  { document, roots, isValue }: Requirement,
  { findings }: Outcome,
): RawFinding | undefined {
  const errors = findings.filter(({ severity }) => severity === 'error');
  const entries = missing.filter((each) => !isValue(each));
  const unread = entries.map((key) => errors.find(({ place }) => place.key === key && place.document === document));
  if (unread.includes(undefined)) return undefined;
  if (unread.length > 0) return unread[0];
  const root = roots.find(({ mended }) => mended.statuses.get(check)?.status !== 'not_run');
  if (root !== undefined) return errors.find((each) => each.check === root.check && each.place.key === root.key);
  const keepers = missing.flatMap((value) => KEPT_BY[value] ?? []);
  return errors.find((each) => keepers.includes(each.check));
}
