import { type CheckedFile, countEnded, countsOf, type Document, titleOfCheck } from '../../engine/index.ts';
import { counted } from '../../render/text/lines.ts';
import type { Workspace } from '../workspace.ts';
import { nearest, rangeOfEntry } from './places.ts';
import type { Counts, NotRun, SummaryResult } from './protocol.ts';

/** What is kept of an installation that no editor holds, so that it can be listed. */
export interface WellLine {
  readonly name: string;
  readonly notRun: number;
}

/** @returns undefined for a document that is no installation */
export function wellLine({ document, statuses }: CheckedFile): WellLine | undefined {
  if (document.kind !== 'installation') return undefined;
  const name = document.tree.scalar(document.tree.find('site.well'));
  return { name: name === '' ? 'a well without a name' : name, notRun: countEnded(statuses, 'not_run') };
}

/** Counts in words; what there is none of is left out, but never what was not run. */
export function countsWords({ errors, warnings, notes, deviated, notRun }: Counts): string {
  const found = [
    errors > 0 && counted(errors, 'error'),
    warnings > 0 && counted(warnings, 'warning'),
    notes > 0 && counted(notes, 'note'),
    deviated > 0 && `${deviated} accepted`,
  ].filter((part) => part !== false);
  const first = errors + warnings === 0 ? ['no errors or warnings'] : [];
  const last = notRun === 0 ? 'every check run' : `${counted(notRun, 'check')} not run`;
  return [...first, ...found, last].join(', ');
}

export function summaryOf(workspace: Workspace, file: CheckedFile): SummaryResult {
  const notRun = notRunOf(workspace, file);
  const counts = countsOf(file);
  return { counts, words: countsWords(counts), isInstallation: file.document.kind === 'installation', notRun };
}

function notRunOf(workspace: Workspace, { document, statuses }: CheckedFile): readonly NotRun[] {
  return [...statuses].flatMap(([check, status]) => {
    if (status.status !== 'not_run') return [];
    const { missing } = status;
    return [{ check, title: titleOfCheck(check), missing, place: placeOf(workspace, document, missing[0] ?? '') }];
  });
}

function placeOf({ open }: Workspace, document: Document, key: string): NotRun['place'] {
  const { node } = nearest(document, key);
  return { uri: open.uriOf(document.path), ...rangeOfEntry(document, node) };
}
