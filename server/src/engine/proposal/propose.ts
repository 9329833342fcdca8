import type { CheckedFile } from '../check-document.ts';
import type { TextEdit } from '../text/problem.ts';
import { type OpenSetpoint, openSetpoints } from './open.ts';
import { type ProposedEntry, proposalEdits, proposedEntries } from './proposals.ts';

/** A document with the setpoints that were missing, and what was written. */
export interface Proposal {
  readonly text: string;
  readonly entries: readonly ProposedEntry[];
  /** Setpoints that are missing still, though a rule could choose them. */
  readonly open: readonly OpenSetpoint[];
}

/** One proposal opens the way to the next (an alarm rests on its trip), but not for ever. */
const MOST_ROUNDS = 8;

/**
 * Writes the missing setpoints of an installation from their windows, in rounds until none is left to write.
 * @param check checks the document with another text in its place
 */
export function propose(file: CheckedFile, today: string, check: (text: string) => CheckedFile | undefined): Proposal {
  let { text } = file.document.source;
  const written: ProposedEntry[] = [];
  let current: CheckedFile | undefined = file;
  for (let round = 0; round < MOST_ROUNDS && current !== undefined; round++) {
    const entries = proposedEntries(current, today).filter(({ key }) => !written.some((each) => each.key === key));
    const edits = proposalEdits(current, entries);
    if (edits.length === 0) break;
    text = applied(text, edits);
    written.push(...entries);
    current = check(text);
  }
  return { text, entries: written, open: current === undefined ? [] : openSetpoints(current) };
}

/** A text with edits applied; of two at one place the first in the list comes first. */
export function applied(text: string, edits: readonly TextEdit[]): string {
  const ordered = edits.map((edit, index) => ({ edit, index })).sort(lastFirst);
  let result = text;
  for (const { edit } of ordered) {
    result = result.slice(0, edit.span.start) + edit.newText + result.slice(edit.span.end);
  }
  return result;
}

type Indexed = { readonly edit: TextEdit; readonly index: number };

function lastFirst(a: Indexed, b: Indexed): number {
  return b.edit.span.start - a.edit.span.start || b.index - a.index;
}
