import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildChecklist, type CheckedFile, INTERNAL, propose, type Repository } from '../../server/src/engine/index.ts';
import { checkJsonReport } from '../../server/src/render/json/check.ts';
import { PLAIN } from '../../server/src/render/paint.ts';
import { NONE_ACCEPTED } from '../../server/src/render/report.ts';
import { findingsReport } from '../../server/src/render/text/findings.ts';
import { listing, parseFast, parseGenerally } from '../engine/syntax/both.ts';
import { openProject, SAMPLES, TODAY } from '../support/project.ts';

export const WELLS = ['a/qm-a1', 'a/qm-a2', 'b/qm-b1', 'b/qm-b2'].map((each) => join(SAMPLES, `pad-${each}.yaml`));
const SHEETS = ['motors/linear-24', 'cables/flat-16', 'transformers/step-up-80', 'gauges/pt-basic', 'drives/drive-50'];

export interface Project {
  readonly repository: Repository;
  readonly path: string;
}

export function projects(): readonly Project[] {
  return WELLS.map((path) => ({ path, repository: openProject(path) }));
}

/** Texts to begin with: whole wells and a few data sheets. */
export function seeds(): readonly string[] {
  const sheets = SHEETS.map((each) => join(SAMPLES, 'equipment', `${each}.yaml`));
  return [...WELLS, ...sheets].map((path) => readFileSync(path, 'utf8'));
}

/** Lets the whole engine have a text in place of a well; gives what went wrong, in words. */
export function faultsWith(text: string, { repository, path }: Project): readonly string[] {
  try {
    const changed = repository.update([{ path, text }]);
    const file = changed.check(path);
    if (file === undefined) return ['the document is gone'];
    const faults = [...faultsIn(file), ...writtenFaults(file), ...disagreements(text)];
    if (file.document.kind === 'installation') exercise(file, changed);
    return faults;
  } catch (error) {
    return [error instanceof Error ? `${error.stack}` : String(error)];
  }
}

/** How long the engine takes for a text, ms. */
export function timeFor(text: string, { repository, path }: Project): number {
  const begun = process.cpuUsage();
  repository.update([{ path, text }]).check(path);
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1000;
}

function faultsIn({ document, findings }: CheckedFile): readonly string[] {
  const { length } = document.source.text;
  return findings.flatMap(({ check, message, span }) => [
    ...(check === INTERNAL ? [message] : []),
    ...(span.start < 0 || span.end < span.start || span.end > length ? [`${check} lies outside the text`] : []),
    ...(/\bNaN\b|Infinity|undefined|\[object/.test(message) ? [`${check} says: ${message}`] : []),
  ]);
}

function writtenFaults(file: CheckedFile): readonly string[] {
  const nameOf = (path: string) => path;
  JSON.parse(checkJsonReport(nameOf).file(file, NONE_ACCEPTED));
  const text = findingsReport({ nameOf, paint: PLAIN, width: 100, show: new Set() }).file(file, NONE_ACCEPTED);
  return /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/.test(text) ? ['control characters reach the terminal'] : [];
}

/** What the fast parser takes, the general one must take in the same way. */
function disagreements(text: string): readonly string[] {
  if (text.length > 100_000) return [];
  const fast = parseFast(text);
  if (fast === undefined) return [];
  const general = parseGenerally(text);
  return listing(fast.tree).join('\n') === listing(general.tree).join('\n') ? [] : ['the parsers do not agree'];
}

function exercise(file: CheckedFile, repository: Repository): void {
  if (file.worked !== undefined) buildChecklist(file, { units: 'metric' });
  const { path } = file.document;
  propose(file, TODAY, (text) => repository.update([{ path, text }]).check(path));
}
