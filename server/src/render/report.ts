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
  /** Checks, over all files. */
  readonly notRun: number;
  readonly setAside: number;
}

/** A report in pieces, so that a run over many files need not be kept in memory. */
export interface Report {
  begin(): string;
  file(file: CheckedFile): string;
  end(summary: Summary): string;
}

export const NOTHING: Summary = {
  files: 0,
  ignored: 0,
  errors: 0,
  warnings: 0,
  notes: 0,
  deviated: 0,
  notRun: 0,
  setAside: 0,
};

/** The summary with one more file in it. */
export function withFile(summary: Summary, { findings, statuses }: CheckedFile): Summary {
  return {
    files: summary.files + 1,
    ignored: summary.ignored,
    errors: summary.errors + ofSeverity(findings, 'error'),
    warnings: summary.warnings + ofSeverity(findings, 'warning'),
    notes: summary.notes + ofSeverity(findings, 'note'),
    deviated: summary.deviated + findings.filter((each) => each.deviated).length,
    notRun: summary.notRun + ofStatus(statuses, 'not_run'),
    setAside: summary.setAside + ofStatus(statuses, 'set_aside'),
  };
}

function ofSeverity(findings: readonly Finding[], severity: Severity): number {
  return findings.filter((each) => each.severity === severity && !each.deviated).length;
}

function ofStatus(statuses: ReadonlyMap<string, CheckStatus>, status: CheckStatus['status']): number {
  let count = 0;
  for (const each of statuses.values()) if (each.status === status) count++;
  return count;
}
