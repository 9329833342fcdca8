import { DEFERRAL } from '../cautions.ts';
import type { Facts } from '../facts.ts';
import type { Overview } from '../overview.ts';
import { act, caution, only, read, type Step } from '../step.ts';

/** Stage 0: what this sheet is, for which revision, and what is open in it. */
export function cover(facts: Facts, overview: Overview): readonly Step[] {
  const { counts } = overview;
  return [
    ...only(counts.errors > 0, caution('cover.errors', errorBand(counts.errors))),
    caution('cover.deferral', DEFERRAL),
    act(
      'cover.fingerprint',
      `Compare the fingerprint of this sheet, ${beginning(facts)}…, with the one in the repository or on the tablet.`,
      { note: 'If they differ, the file has changed since this was printed: print it again.' },
    ),
    revision(facts),
    ...openPoints(overview),
    read('cover.visit', 'Enter the day of the visit and who leads the crew.', { fields: ['date', 'led by'] }),
    read('cover.crew', 'Enter who is in the crew and has read the cautions.', { fields: ['name', 'name', 'name'] }),
  ];
}

/** Enough of the fingerprint to compare by eye. */
function beginning(facts: Facts): string {
  return (facts.file.fingerprint() ?? '').replace(/^sha256:/, '').slice(0, 12);
}

/** What stands across every page of an installation with errors. */
export function errorBand(errors: number): string {
  const count = errors === 1 ? 'one open error' : `${errors} open errors`;
  return `The file of this installation has ${count}. Do not set up the well from this sheet.`;
}

function revision(facts: Facts): Step {
  const checkedBy = facts.text('revision.checked_by');
  const number = facts.text('revision.number') ?? 'without a number';
  const text = `Confirm that revision ${number} is the current one and that a second person has checked it.`;
  const note =
    checkedBy === undefined ? "The file names nobody: 'revision.checked_by' is empty." : `Checked by ${checkedBy}.`;
  return act('cover.revision', text, { note });
}

function openPoints({ counts }: Overview): readonly Step[] {
  const open = counts.errors + counts.warnings + counts.notes;
  return [
    ...only(
      open > 0,
      act('cover.findings', `Read the ${countOf(open, 'open finding')} above and settle what concerns this visit.`),
    ),
    ...only(
      counts.deviated > 0,
      act('cover.deviations', `Read the ${countOf(counts.deviated, 'accepted deviation')} above and work within them.`),
    ),
    ...only(
      counts.notRun > 0,
      act('cover.not_run', `Note that ${countOf(counts.notRun, 'check')} could not be made; nothing is known of them.`),
    ),
  ];
}

function countOf(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
