import {
  CALIBRATION,
  DATE,
  ITEM_TWICE,
  OTHER_FINGERPRINT,
  OTHER_SERIAL,
  UNKNOWN_ITEM,
} from '../checks/readings/identity.ts';
import type { Fix } from '../findings/finding.ts';
import { guesser } from '../format/distance.ts';
import { shorten } from '../format/kind.ts';
import { NONE } from '../syntax/tree.ts';
import type { VisitCheck, VisitFinding } from './declare.ts';
import { dayNumber, momentOf } from './moments.ts';
import type { Entry, Row, Visit } from './visit.ts';

export const IDENTITY_CHECKS: readonly VisitCheck[] = [
  { check: OTHER_FINGERPRINT, judge: otherFingerprint, lacks: lacksEntry('fingerprint') },
  { check: UNKNOWN_ITEM, judge: unknownItems },
  { check: ITEM_TWICE, judge: itemsTwice },
  { check: OTHER_SERIAL, judge: otherSerials },
  { check: DATE, judge: (visit) => [...visitDate(visit), ...rowTimes(visit), ...calibrationDays(visit)] },
  { check: CALIBRATION, judge: outOfCalibration, lacks: lacksEntry('visit.date') },
];

function lacksEntry(key: string): NonNullable<VisitCheck['lacks']> {
  return (visit) => (visit.text(key) === undefined ? [key] : []);
}

function otherFingerprint(visit: Visit): readonly VisitFinding[] {
  const written = visit.text('fingerprint');
  const { fingerprint } = visit.checklist;
  if (written === undefined || written === fingerprint) return [];
  return [
    {
      at: 'fingerprint',
      message: `The checklist was made from another state of '${visit.text('installation')}': it carries ${shorten(written)}, and the file with its data sheets and policy is now ${shorten(fingerprint)}. See what has changed since, and whether it concerns what was done.`,
      fixes: replaced(visit, 'fingerprint', fingerprint, 'Enter the present fingerprint'),
    },
  ];
}

function replaced({ document }: Visit, key: string, newText: string, title: string): readonly Fix[] {
  const node = document.tree.find(key);
  if (node === NONE || !document.tree.isScalar(node)) return [];
  return [{ title, kind: 'offer', edits: [{ path: document.path, span: document.tree.span(node), newText }] }];
}

function unknownItems(visit: Visit): readonly VisitFinding[] {
  const guess = guesser([...visit.steps.keys()]);
  return visit.rows.flatMap(({ placed, item, key }) => {
    if (placed !== undefined) return [];
    const near = guess(item);
    const meant = near === undefined ? 'Write the id as it is printed beside the item.' : `Is '${near}' meant?`;
    return [
      {
        at: `${key}.item`,
        message: `The checklist has no item '${shorten(item)}', so nothing judges this reading. ${meant}`,
        fixes: near === undefined ? [] : replaced(visit, `${key}.item`, near, `Write ${near}`),
      },
    ];
  });
}

function itemsTwice(visit: Visit): readonly VisitFinding[] {
  return visit.rows.flatMap(({ item, key }) => {
    const first = visit.row(item);
    if (first === undefined || first.key === key) return [];
    return [
      {
        at: `${key}.item`,
        message: `'${shorten(item)}' is answered at ${first.key} already; that answer is judged, this one is not. Keep the one that holds.`,
      },
    ];
  });
}

/** As people write serial numbers: with and without dashes and blanks. */
function lettersAndDigits(text: string): string {
  return text.replace(/[^\p{L}\p{N}]/gu, '').toUpperCase();
}

function otherSerials(visit: Visit): readonly VisitFinding[] {
  return visit.rows.flatMap((row) => {
    const step = row.placed?.step;
    const [entry] = row.entries;
    if (step === undefined || !/^inspection\..+\.serial$/.test(step.id) || step.planned === undefined) return [];
    if (entry === undefined || entry.text === '') return [];
    if (lettersAndDigits(entry.text) === lettersAndDigits(String(step.planned))) return [];
    return [
      {
        at: entry.key,
        severity: row.note === undefined ? undefined : 'warning',
        message: `'${step.id}' reads '${entry.text}', and the file has '${step.planned}'. Read the plate again; if it is another item, compare it with its data sheet and bring it into the file.`,
      },
    ];
  });
}

function visitDate(visit: Visit): readonly VisitFinding[] {
  const date = visit.text('visit.date');
  const day = date === undefined ? undefined : dayNumber(date);
  // A date that is none is said by the reading of the document.
  if (date === undefined || day === undefined) return [];
  const revised = visit.checklist.revision.date;
  const at = 'visit.date';
  if (day > (dayNumber(visit.today) ?? Number.POSITIVE_INFINITY))
    return [
      { at, message: `The visit of ${date} is in the future: today is ${visit.today}. Enter the day on which it was.` },
    ];
  if (revised !== undefined && day < (dayNumber(revised) ?? Number.NEGATIVE_INFINITY))
    return [
      {
        at,
        planned: 'revision.date',
        message: `The visit of ${date} was before the file was revised, on ${revised}. Enter the right day, or go by the revision that the crew had.`,
      },
    ];
  return [];
}

/** Days after the visit within which readings may be added: those of the first day, and a weekend. */
const MOST_DAYS_AFTER = 7;
const MOST_DAYS_BEFORE = 31;

function rowTimes(visit: Visit): readonly VisitFinding[] {
  const day = dayNumber(visit.text('visit.date') ?? '');
  return visit.rows.flatMap((row) => {
    if (row.at === undefined) return [];
    const moment = momentOf(row.at);
    const at = `${row.key}.at`;
    if (moment === undefined)
      return [
        {
          at,
          message: `'${shorten(row.at)}' at '${row.item}' is no time. Write 2026-03-20T09:40, or 09:40 on the day of the visit.`,
        },
      ];
    const own = moment.day === undefined ? undefined : dayNumber(moment.day);
    if (day === undefined || own === undefined || isNear(own - day)) return [];
    return [
      {
        at,
        message: `'${row.item}' is dated ${row.at}, and the visit was on ${visit.text('visit.date')}. Enter the right day.`,
      },
    ];
  });
}

function isNear(daysAfter: number): boolean {
  return daysAfter <= MOST_DAYS_AFTER && daysAfter >= -MOST_DAYS_BEFORE;
}

interface Calibration {
  readonly row: Row;
  readonly entry: Entry;
  /** Last day, counted; undefined for what is no day. */
  readonly until: number | undefined;
}

const NONE_NEEDED = /^(n\/?a|none|-|–|—|not needed|no calibration)$/i;

function calibrations(visit: Visit): readonly Calibration[] {
  return visit.rows.flatMap((row) => {
    const field = row.placed?.step.fields?.indexOf('calibrated until') ?? -1;
    const entry = row.entries.find(({ index }) => index === field);
    if (entry === undefined || entry.text === '' || NONE_NEEDED.test(entry.text)) return [];
    return [{ row, entry, until: lastDay(entry.text) }];
  });
}

/** A month holds to its last day. */
function lastDay(text: string): number | undefined {
  const [, year, month] = /^(\d{4})-(0[1-9]|1[0-2])$/.exec(text) ?? [];
  return year === undefined ? dayNumber(text) : Date.UTC(Number(year), Number(month), 0) / 86_400_000;
}

function calibrationDays(visit: Visit): readonly VisitFinding[] {
  return calibrations(visit)
    .filter(({ until }) => until === undefined)
    .map(({ row, entry }) => ({
      at: entry.key,
      message: `'${row.item}' is calibrated until '${shorten(entry.text)}', which is no day. Write it as 2027-03-31, or 'none' for what has no calibration.`,
    }));
}

function outOfCalibration(visit: Visit): readonly VisitFinding[] {
  const date = visit.text('visit.date') ?? '';
  const day = dayNumber(date);
  if (day === undefined) return [];
  return calibrations(visit)
    .filter(({ until }) => until !== undefined && until < day)
    .map(({ row, entry }) => ({
      at: entry.key,
      message: `'${row.item}' was calibrated until ${entry.text}, before the visit of ${date}. Have it calibrated, and read again what depends on it if it is found off.`,
    }));
}
