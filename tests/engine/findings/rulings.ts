import { join } from 'node:path';
import type { CheckedFile, Repository } from '../../../server/src/engine/index.ts';
import { checked, edited, openProject, SAMPLES } from '../../support/project.ts';

export const WELL = join(SAMPLES, 'pad-a/qm-a1.yaml');
export const POLICY = join(SAMPLES, 'pad-a/setproof.policy.yaml');
const project = openProject(WELL);

/** The clean well with an overload trip that is too high, 33 A at a motor of 15.3 A, and with deviations. */
export function tooHigh(deviations: string, trip = '33 A'): CheckedFile {
  return checked(edited(project, WELL, { 'setpoints.protection.overload.trip': trip, deviations }), WELL);
}

/** The clean well with entries changed, under a policy of its own. */
export function under(policy: string, edits: Readonly<Record<string, string>> = {}): CheckedFile {
  return checked(edited(governed(policy), WELL, edits), WELL);
}

export function governed(policy: string): Repository {
  return project.update([{ path: POLICY, text: `document: policy/1\n${policy}` }]);
}

export function said(file: CheckedFile, check: string) {
  return file.findings.filter((each) => each.check === check);
}
