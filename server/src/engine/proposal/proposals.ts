import type { CheckedFile, Worked } from '../check-document.ts';
import { CheckContext } from '../checks/context.ts';
import { NONE } from '../syntax/tree.ts';
import type { TextEdit } from '../text/problem.ts';
import { listed } from '../text/words.ts';
import type { BoundReading, WindowReading } from '../windows/reading.ts';
import { insertEntries } from './insert.ts';

/** An entry that a proposal writes, with what it rests on. */
export interface ProposedEntry {
  readonly key: string;
  readonly text: string;
  /** Empty where the entry before it says so for both. */
  readonly basis: string;
}

/** The setpoints that a file lacks and whose windows name a value; none that is there is ever touched. */
export function proposedEntries(file: CheckedFile, today: string): readonly ProposedEntry[] {
  const { worked } = file;
  if (worked === undefined) return [];
  return worked.windows.flatMap((reading) => entriesOf(file, worked, reading, today));
}

/** The edits that write them. */
export function proposalEdits(file: CheckedFile, entries: readonly ProposedEntry[]): readonly TextEdit[] {
  return insertEntries(file.document, entries);
}

function entriesOf(file: CheckedFile, worked: Worked, reading: WindowReading, today: string): readonly ProposedEntry[] {
  const { window, recommended, applies } = reading;
  if (!applies || recommended === undefined) return [];
  const context = new CheckContext(worked.evaluation, 0, today);
  const shown = context.show(recommended, window.kind, window.setpoint);
  const entries = window.choice?.(worked.evaluation, recommended)?.entries ?? [
    { key: window.setpoint, newText: shown },
  ];
  const basis = basisOf(reading, context);
  const absent = entries.filter(({ key }) => isAbsent(file, key));
  return absent.map(({ key, newText }, at) => ({ key, text: newText, basis: at === 0 ? basis : '' }));
}

export function isAbsent({ document }: CheckedFile, key: string): boolean {
  const node = document.tree.find(key);
  return node === NONE || document.tree.isAbsent(node);
}

/** "the least comfortable pressure, rounded up; window 7.5 bar(g) (casing pressure) to 15 bar(g) (flowing, 'target')". */
function basisOf(reading: WindowReading, context: CheckContext): string {
  const { window, ends } = reading;
  const { kind, setpoint } = window;
  const end = (side: 'lower' | 'upper', number: number, word: string) => {
    const binding = reading.bounds.find((each) => each.bound.side === side && each.number === number);
    if (binding === undefined) return [];
    return [`${word} ${context.show(number, kind, setpoint)} (${nameOf(binding, context)})`];
  };
  const range = [...end('lower', ends.lower, 'at least'), ...end('upper', ends.upper, 'at most')];
  const rule = window.recommendation?.rule ?? '';
  return range.length === 0 ? rule : `${rule}; ${listed(range)}`;
}

function nameOf({ bound, caseIndex }: BoundReading, context: CheckContext): string {
  const inCase = caseIndex === undefined ? '' : `, '${context.evaluation.caseName(caseIndex)}'`;
  return `${bound.limitName}${inCase}`;
}
