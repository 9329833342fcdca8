import { type Checklist, formatNumber, type Step, type StepLimit } from '../../engine/index.ts';

/** Digits that a number on paper never needs more of. */
const DIGITS = 8;

export function numberText(value: number | string | boolean): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? formatNumber(value, { significant: DIGITS }) : value;
}

/** `8.5 to 12 bar(g)`, `at least 100 Mohm`; empty without a limit. */
export function limitText(limit: StepLimit | undefined, unit: string | undefined): string {
  const tail = unit === undefined ? '' : ` ${unit}`;
  const min = limit?.min === undefined ? undefined : numberText(limit.min);
  const max = limit?.max === undefined ? undefined : numberText(limit.max);
  if (min !== undefined && max !== undefined) return `${min} to ${max}${tail}`;
  if (min !== undefined) return `at least ${min}${tail}`;
  return max === undefined ? '' : `at most ${max}${tail}`;
}

/** The planned or expected value with its unit; empty without one. */
export function plannedText({ planned, expected, unit }: Step): string {
  const value = planned ?? expected;
  if (value === undefined) return '';
  return `${numberText(value)}${unit === undefined ? '' : ` ${unit}`}`;
}

/** Steps that follow each other under one heading. */
export interface StepGroup {
  readonly title: string | undefined;
  readonly steps: readonly Step[];
}

export function groupsOf(steps: readonly Step[]): readonly StepGroup[] {
  return runs(steps, ({ group }) => group).map((run) => ({ title: run[0]?.group, steps: run }));
}

/** Cuts a list wherever the key changes. */
export function runs<T>(items: readonly T[], keyOf: (item: T) => unknown): readonly (readonly T[])[] {
  const found: T[][] = [];
  let last: unknown;
  for (const item of items) {
    const key = keyOf(item);
    if (found.length === 0 || key !== last) found.push([]);
    found.at(-1)?.push(item);
    last = key;
  }
  return found;
}

/** `Revision B of 2026-03-14`; says so where there is none. */
export function revisionText({
  number,
  date,
}: {
  readonly number: string | undefined;
  readonly date: string | undefined;
}): string {
  const name = number === undefined ? 'Revision without a number' : `Revision ${number}`;
  return date === undefined ? name : `${name} of ${date}`;
}

/** Which well this is, and who stands behind it: the head of the cover. */
export function identityPairs(checklist: Checklist): readonly (readonly [string, string])[] {
  const { well, field, pad, revision, installation } = checklist;
  return [
    ['Well', well],
    ['Field and pad', [field, pad].filter((each) => each !== undefined).join(', ') || 'not in the file'],
    ['Revision', revisionText(revision)],
    ['Prepared by', revision.preparedBy ?? 'nobody named in the file'],
    ['Checked by', revision.checkedBy ?? 'nobody named in the file'],
    ['File', installation],
  ];
}
