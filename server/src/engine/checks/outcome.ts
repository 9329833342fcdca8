import type { CheckStatus, Fix, Measure, Severity } from '../findings/finding.ts';
import { atLeast } from '../findings/gate.ts';
import type { RawFinding, RelatedPlace } from '../findings/raw.ts';

/** What running the checks on one document gave: findings still to pass the gate, and the status of every check. */
export class Outcome {
  findings: RawFinding[] = [];
  readonly statuses = new Map<string, CheckStatus>();
  /** What failed itself, as a noun with its id, and why; each once. The run went on without it. */
  readonly broken = new Map<string, string>();
  readonly #consequences: Consequence[] = [];

  /** Does a part of the run; where it throws that is noted, and the other parts go on. */
  attempt<T>(part: string, act: () => T): T | undefined {
    try {
      return act();
    } catch (error) {
      this.noteBroken(part, error);
      return undefined;
    }
  }

  noteBroken(part: string, error: unknown): void {
    if (!this.broken.has(part)) this.broken.set(part, error instanceof Error ? error.message : String(error));
  }

  report(finding: RawFinding): void {
    this.findings.push(finding);
    this.statuses.set(finding.check, { status: 'finding' });
  }

  /** Keeps a finding that may be a consequence of what another check reports. */
  reportConsequence(finding: RawFinding, causes: readonly string[]): void {
    this.#consequences.push({ finding, causes });
    this.statuses.set(finding.check, { status: 'finding' });
  }

  /**
   * Names each consequence with its cause; one whose cause nobody reports stands on its own. A cause that is itself a
   * consequence is settled first, and stands for what it was named with.
   */
  linkConsequences(): void {
    const pending = this.#consequences.splice(0);
    const namedWith = new Map<string, string>();
    while (pending.length > 0) {
      const settled = pending.findIndex((each) => !pending.some((other) => isCauseOf(other, each)));
      for (const each of pending.splice(Math.max(0, settled), 1)) this.#link(each, namedWith);
    }
  }

  #link({ finding, causes }: Consequence, namedWith: Map<string, string>): void {
    if (this.statuses.get(finding.check)?.status === 'set_aside') return;
    const roots = causes.map((cause) => namedWith.get(cause) ?? cause);
    const at = this.findings.findIndex(({ check }) => roots.includes(check));
    const root = this.findings[at];
    if (root === undefined) this.findings.push(finding);
    else {
      this.findings[at] = { ...root, related: [consequenceOf(finding), ...(root.related ?? [])] };
      namedWith.set(finding.check, root.check);
    }
  }

  /** Names findings, and what was named with them, with the one that they go back to; it is as severe as the worst of them. */
  nameWith(root: RawFinding, following: readonly RawFinding[], { severityOf, offer }: Naming): void {
    if (following.length === 0) return;
    const worstFirst = following.toSorted((a, b) =>
      a.severity === b.severity ? 0 : atLeast(a.severity, b.severity) ? -1 : 1,
    );
    const consequences = worstFirst.flatMap((each) => [
      consequenceOf(each),
      ...(each.related ?? []).filter(({ follows }) => follows === true),
    ]);
    const named: RawFinding = {
      ...root,
      severity: [root, ...following].map(severityOf).reduce((a, b) => (atLeast(a, b) ? a : b)),
      message: `${root.message} ${inWords(consequences.length)} with it.`,
      related: [...consequences, ...(root.related ?? [])],
      fixes: [withConsequence(offer, consequences.length), ...(root.fixes ?? []).filter((fix) => fix !== offer)],
    };
    this.findings = this.findings.flatMap((each) => (each === root ? [named] : following.includes(each) ? [] : [each]));
  }

  /** Names what follows from a finding with it, without counting it as one more. */
  nameConsequence(root: RawFinding, following: RawFinding): void {
    const related = [consequenceOf(following), ...(root.related ?? [])];
    this.findings = this.findings.map((each) => (each === root ? { ...root, related } : each));
    this.statuses.set(following.check, { status: 'finding' });
  }

  /** Takes back the findings of a check that a policy sets aside. */
  withdraw(check: string): void {
    this.findings = this.findings.filter((each) => each.check !== check);
  }

  /** @param margin works out how far inside the check is; asked only when somebody reads it. */
  passed(check: string, margin: MarginReader | undefined): void {
    this.settle(check, passedBy(margin === undefined ? [] : [margin]));
  }

  notRun(check: string, missing: readonly string[]): void {
    this.settle(check, notRunFor(missing));
  }

  notApplicable(check: string): void {
    this.settle(check, NOT_APPLICABLE);
  }

  /** Said once of a check that several bounds share. */
  settle(check: string, status: CheckStatus): void {
    const before = this.statuses.get(check);
    const both = before === undefined ? status : bothOf(before, status);
    if (both !== before) this.statuses.set(check, both);
  }
}

export const NOT_APPLICABLE: CheckStatus = { status: 'not_applicable' };

export function notRunFor(missing: readonly string[]): CheckStatus {
  return { status: 'not_run', missing: [...new Set(missing)].sort() };
}

export function passedBy(margins: readonly MarginReader[]): CheckStatus {
  return margins.length === 0 ? PASSED : new Passed(margins);
}

/** What was found outranks what was not run, that what passed. */
export function bothOf(before: CheckStatus, status: CheckStatus): CheckStatus {
  if (WEIGHT[status.status] > WEIGHT[before.status]) return status;
  if (before.status === 'not_run' && status.status === 'not_run')
    return notRunFor([...before.missing, ...status.missing]);
  return before.status === 'passed' && status.status === 'passed' ? bothPassed(before, status) : before;
}

type MarginReader = () => Measure;
type PassedStatus = Extract<CheckStatus, { readonly status: 'passed' }>;

export const PASSED: PassedStatus = { status: 'passed', margin: undefined };

/**
 * A check that passed in several cases, or with several bounds. To put each margin into the author's unit costs as much
 * as to run the check, and few reports name it.
 */
class Passed implements PassedStatus {
  readonly status = 'passed';
  readonly #margins: readonly MarginReader[];

  constructor(margins: readonly MarginReader[]) {
    this.#margins = margins;
  }

  get margin(): Measure | undefined {
    return this.#margins.map((read) => read()).reduce(smaller);
  }

  and(other: Passed): Passed {
    return new Passed([...this.#margins, ...other.#margins]);
  }
}

function bothPassed(a: PassedStatus, b: PassedStatus): PassedStatus {
  if (a instanceof Passed && b instanceof Passed) return a.and(b);
  return a instanceof Passed ? a : b;
}

/** A finding that may follow from what one of other checks reports. */
interface Consequence {
  readonly finding: RawFinding;
  readonly causes: readonly string[];
}

function isCauseOf(other: Consequence, { finding, causes }: Consequence): boolean {
  return other.finding.check !== finding.check && causes.includes(other.finding.check);
}

function consequenceOf({ check, place, message }: RawFinding): RelatedPlace {
  return { place, message: `so also ${check}: ${message}`, follows: true };
}

/** What the one finding is told with. */
interface Naming {
  readonly severityOf: (finding: RawFinding) => Severity;
  /** To write what was likely meant. */
  readonly offer: Fix;
}

function withConsequence(offer: Fix, count: number): Fix {
  return {
    ...offer,
    title: `${offer.title}; ${count === 1 ? 'one more finding goes' : `${count} more findings go`} with it`,
  };
}

function inWords(count: number): string {
  return count === 1
    ? 'One more finding goes back to it, and is named'
    : `${count} more findings go back to it, and are named`;
}

const WEIGHT: Readonly<Record<CheckStatus['status'], number>> = {
  not_applicable: 0,
  passed: 1,
  not_run: 2,
  set_aside: 3,
  deviated: 4,
  finding: 5,
};

function smaller(a: Measure, b: Measure): Measure {
  return b.number < a.number ? b : a;
}
