import type { CheckedFile, CheckStatus, Finding, Severity } from '../engine/index.ts';

/** What a run of `check` comes to. */
export interface Summary {
  readonly files: number;
  /** Files that are not ours. */
  readonly ignored: number;
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  /** Findings that a deviation accepts; they count nowhere else. */
  readonly deviated: number;
  /** Findings that a list of accepted ones names; they count nowhere else. */
  readonly accepted: number;
  /** Checks, over all files. */
  readonly notRun: number;
  readonly setAside: number;
}

/** A check that was not run somewhere. */
export interface NotRun {
  /** In how many files. */
  readonly files: number;
  /** The first of them, and what is missing there. */
  readonly path: string;
  readonly missing: readonly string[];
}

/** An entry of the list of accepted findings of which nothing is found any more. */
export interface Settled {
  readonly file: string;
  readonly key: string;
  readonly check: string;
  readonly case: string | undefined;
}

/** All that is known at the end of a run. */
export interface Run {
  readonly summary: Summary;
  /** By check, in the order of their ids. */
  readonly notRun: ReadonlyMap<string, NotRun>;
  readonly settled: readonly Settled[];
  /** What could not be looked at, in sentences. */
  readonly troubles: readonly string[];
}

export type Accepted = ReadonlySet<Finding>;
export const NONE_ACCEPTED: Accepted = new Set();

/** A report in pieces, so that a run over many files need not be kept in memory. */
export interface Report {
  begin(): string;
  /** What is said of one file. It needs nothing of what was said before, so that it can be made in any worker. */
  file(file: CheckedFile, accepted: Accepted): string;
  /** The same in its place after the others. */
  next(piece: string): string;
  end(run: Run): string;
}

export const NOTHING: Summary = {
  files: 0,
  ignored: 0,
  errors: 0,
  warnings: 0,
  notes: 0,
  deviated: 0,
  accepted: 0,
  notRun: 0,
  setAside: 0,
};

/** The summary with one more file in it. */
export function withFile(
  summary: Summary,
  { findings, statuses }: CheckedFile,
  accepted: Accepted = NONE_ACCEPTED,
): Summary {
  const open = findings.filter((each) => isOpen(each, accepted));
  return {
    files: summary.files + 1,
    ignored: summary.ignored,
    errors: summary.errors + ofSeverity(open, 'error'),
    warnings: summary.warnings + ofSeverity(open, 'warning'),
    notes: summary.notes + ofSeverity(open, 'note'),
    deviated: summary.deviated + findings.filter((each) => each.deviated).length,
    accepted: summary.accepted + findings.filter((each) => !each.deviated && accepted.has(each)).length,
    notRun: summary.notRun + ofStatus(statuses, 'not_run'),
    setAside: summary.setAside + ofStatus(statuses, 'set_aside'),
  };
}

/** The counts of two parts of a run together. */
export function together(a: Summary, b: Summary): Summary {
  const counts = Object.keys(a).map((name) => [name, a[name as keyof Summary] + b[name as keyof Summary]]);
  return Object.fromEntries(counts) as unknown as Summary;
}

/** Whether nobody has accepted a finding. */
export function isOpen(finding: Finding, accepted: Accepted): boolean {
  return !finding.deviated && !accepted.has(finding);
}

function ofSeverity(findings: readonly Finding[], severity: Severity): number {
  return findings.filter((each) => each.severity === severity).length;
}

function ofStatus(statuses: ReadonlyMap<string, CheckStatus>, status: CheckStatus['status']): number {
  let count = 0;
  for (const each of statuses.values()) if (each.status === status) count++;
  return count;
}
