import type { AnswerLine, AnswerStage, Handover } from '../../engine/index.ts';
import { limitText, revisionText, runs } from '../checklist/words.ts';
import { counted } from '../text/lines.ts';

export const NOTHING = 'none';

export function titleOf({ well }: Handover): string {
  return `Handover of well ${well}`;
}

/** What the report is of, line by line. */
export function factsOf(report: Handover): readonly (readonly [name: string, value: string])[] {
  const place = [report.field, report.pad].filter((each) => each !== undefined).join(', ');
  return [
    ['Well', report.well],
    ['Field and pad', place || 'not in the file'],
    ['Date of the visit', report.date ?? 'not entered'],
    ['Crew', report.crew.join(', ') || 'nobody entered'],
    ['Installation', report.installation],
    ['Revision now', revisionText(report.revision)],
    ['Fingerprint of the checklist', report.fingerprint ?? 'not entered'],
  ];
}

/** Whether the crew worked by the file as it is now. */
export function stateText({ isCurrent, fingerprint }: Handover): string {
  if (fingerprint === undefined) return 'It is not known from which state of the file the checklist was made.';
  return isCurrent
    ? 'The file has not changed since the checklist was made.'
    : 'The file has changed since the checklist was made: what is said here is judged by the file as it is now.';
}

export function countsText({ counts }: Handover): string {
  const { items, answered, open, errors, warnings, notes, settings, settingsDiffering } = counts;
  return (
    `${answered} of ${items} items answered, ${open} open. ` +
    `${counted(errors, 'error')}, ${counted(warnings, 'warning')}, ${counted(notes, 'note')}. ` +
    `${settingsDiffering} of ${settings} settings left other than planned.`
  );
}

/** Stands on each page of a visit that left errors, so that no page of it passes for a good one. */
export function bandText({ counts: { errors } }: Handover): string | undefined {
  if (errors === 0) return undefined;
  return `${counted(errors, 'error')} in this visit: see “Deviating”. Do not accept the well from this report.`;
}

/** What was due at an item; empty without a limit. */
export function dueText({ limit, unit, case: inCase }: AnswerLine): string {
  const due = limitText(limit, unit);
  return inCase === undefined ? due : `${due}${due === '' ? '' : ', '}case '${inCase}'`;
}

/** Who, when and with what: what stands behind an answer. */
export function behindText({ by, at, instrument }: AnswerLine): string {
  return [by, at, instrument === undefined ? undefined : `with ${instrument}`].filter((each) => each).join(', ');
}

/** Planned and as left: in words, since the sheet is printed in black and white. */
export function settingVerdict({ left, isSame }: Handover['settings'][number]): string {
  if (left === undefined) return 'not written down';
  return isSame ? 'as planned' : 'differs';
}

/** Ticked, and nothing more is to be said of it. */
export function isTickAlone(line: AnswerLine): boolean {
  return line.answer === 'yes' && line.note === undefined && line.finding === undefined && behindText(line) === '';
}

/** Readings that were taken at the same times or depths, as columns of one table. */
export interface Log {
  readonly names: readonly string[];
  readonly rows: readonly { readonly line: AnswerLine; readonly texts: readonly string[] }[];
}

/** More columns than these are no longer read on paper. */
const MOST_COLUMNS = 9;

/** The series of a stage, those of the same names together, a wide one in pieces. */
export function logsOf({ lines }: AnswerStage): readonly Log[] {
  const series = lines.filter((line) => line.series.length > 0);
  return runs(series, (line) => line.series.map(({ name }) => name).join('\n')).flatMap(logPieces);
}

function logPieces(lines: readonly AnswerLine[]): readonly Log[] {
  const names = lines[0]?.series.map(({ name }) => name) ?? [];
  return Array.from({ length: Math.ceil(names.length / MOST_COLUMNS) }, (_, piece) => {
    const [from, to] = [piece * MOST_COLUMNS, (piece + 1) * MOST_COLUMNS];
    const rows = lines.map((line) => ({ line, texts: line.series.slice(from, to).map(({ text }) => text) }));
    return { names: names.slice(from, to), rows };
  });
}

/** What stands at the head of a row of a log besides its text: unit, limit, who and when, and what was found. */
export function logFacts(line: AnswerLine): string {
  const facts = [`in ${line.unit}`, dueText(line), behindText(line), line.finding ?? ''];
  return facts.filter((each) => each !== '').join('; ');
}
