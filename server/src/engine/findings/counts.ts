import type { CheckStatus, Finding, Severity } from './finding.ts';

/** How many findings there are; what a deviation accepts counts only there. */
export interface FindingCounts {
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  readonly deviated: number;
}

/** The same, and how many checks were not run. */
export interface Counts extends FindingCounts {
  readonly notRun: number;
}

export function countFindings(findings: readonly Finding[]): FindingCounts {
  const open = findings.filter(({ deviated }) => !deviated);
  const of = (severity: Severity) => open.filter((each) => each.severity === severity).length;
  return {
    errors: of('error'),
    warnings: of('warning'),
    notes: of('note'),
    deviated: findings.length - open.length,
  };
}

/** How many checks ended in a status. */
export function countEnded(statuses: ReadonlyMap<string, CheckStatus>, status: CheckStatus['status']): number {
  return [...statuses.values()].filter((each) => each.status === status).length;
}

/** What a checked file comes to. */
export function countsOf(file: {
  readonly findings: readonly Finding[];
  readonly statuses: ReadonlyMap<string, CheckStatus>;
}): Counts {
  return { ...countFindings(file.findings), notRun: countEnded(file.statuses, 'not_run') };
}
