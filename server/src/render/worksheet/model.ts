import {
  CheckContext,
  type CheckedFile,
  type CheckStatus,
  type Evaluation,
  type Finding,
  LIMITS,
  NONE,
  titleOfCheck,
  type WindowReading,
} from '../../engine/index.ts';
import { NOTHING, type Summary, withFile } from '../report.ts';
import { type PictureWidth, WIDE } from '../svg/drawing.ts';
import type { Picture } from '../svg/picture.ts';
import { casePictures, commonPictures } from '../svg/pictures.ts';
import { caseValues, fileValues, type ValueSheet } from './values.ts';
import { type WindowSheet, windowSheet } from './windows.ts';

/** All that a worksheet says, whatever it is written in. */
export interface Worksheet {
  readonly heading: Heading;
  readonly limits: readonly ChangedLimit[];
  readonly summary: Summary;
  readonly findings: readonly Finding[];
  readonly notRun: readonly NotRunRow[];
  /** Undefined where the file could not be worked out at all. */
  readonly worked: WorkedSheet | undefined;
}

export interface Heading {
  readonly well: string;
  readonly site: string;
  readonly path: string;
  /** Paths of the data sheets behind the entries. */
  readonly sheets: readonly string[];
  readonly revision: string;
  readonly preparedBy: string;
  readonly checkedBy: string;
  readonly fingerprint: string;
  /** Day on which it was checked. */
  readonly date: string;
}

/** A limit to which the policy gives another number than its default. */
export interface ChangedLimit {
  readonly name: string;
  readonly title: string;
  readonly shown: string;
  readonly usual: string;
}

export interface NotRunRow {
  readonly check: string;
  readonly title: string;
  readonly missing: readonly string[];
}

export interface WorkedSheet {
  readonly file: ValueSheet;
  readonly pictures: readonly Picture[];
  readonly cases: readonly CaseSheet[];
  readonly windows: readonly WindowSheet[];
  /** Titles of the windows that this installation has no setpoint for. */
  readonly otherWindows: readonly string[];
}

export interface CaseSheet {
  readonly name: string;
  /** What the case says of itself, as written. */
  readonly entries: string;
  readonly values: ValueSheet;
  readonly pictures: readonly Picture[];
}

/** Gathers the worksheet of a checked file; `today` is the day of the check. */
export function worksheetOf(file: CheckedFile, today: string, width: PictureWidth = WIDE): Worksheet {
  return {
    heading: headingOf(file, today),
    limits: changedLimits(file),
    summary: withFile(NOTHING, file),
    findings: file.findings,
    notRun: notRun(file.statuses),
    worked: file.worked === undefined ? undefined : workedOf(file.worked, width),
  };
}

function headingOf({ document, fingerprint, worked }: CheckedFile, date: string): Heading {
  const { tree } = document;
  const text = (key: string) => tree.scalar(tree.find(key));
  const site = ['site.field', 'site.pad'].map(text).filter((part) => part !== '');
  const revision = [text('revision.number'), text('revision.date')].filter((part) => part !== '');
  return {
    well: text('site.well') || 'a well without a name',
    site: site.join(', '),
    path: document.path,
    sheets: [...new Set([...(worked?.evaluation.installation.sheets.values() ?? [])].map(({ path }) => path))].sort(),
    revision: revision.length === 0 ? 'none stated' : revision.join(', '),
    preparedBy: text('revision.prepared_by'),
    checkedBy: text('revision.checked_by'),
    fingerprint: fingerprint() ?? '',
    date,
  };
}

function changedLimits({ policy, worked }: CheckedFile): readonly ChangedLimit[] {
  if (worked === undefined) return [];
  const context = new CheckContext(worked.evaluation, 0, '');
  return LIMITS.flatMap(({ name, title, kind, number }) => {
    const set = policy.limits.get(name);
    if (set === undefined || set === number) return [];
    return [{ name, title, shown: context.show(set, kind), usual: context.show(number, kind) }];
  });
}

function notRun(statuses: ReadonlyMap<string, CheckStatus>): readonly NotRunRow[] {
  return [...statuses].flatMap(([check, status]) =>
    status.status === 'not_run' ? [{ check, title: titleOfCheck(check), missing: status.missing }] : [],
  );
}

function workedOf({ evaluation, windows }: NonNullable<CheckedFile['worked']>, width: PictureWidth): WorkedSheet {
  const applies = (reading: WindowReading) => reading.applies;
  return {
    file: fileValues(evaluation),
    pictures: commonPictures(evaluation, width),
    cases: Array.from({ length: evaluation.caseCount }, (_, at) => caseOf(evaluation, at, width)),
    windows: windows.filter(applies).map((reading) => windowSheet(evaluation, reading, width)),
    otherWindows: windows.filter((reading) => !applies(reading)).map(({ window }) => window.title),
  };
}

function caseOf(evaluation: Evaluation, caseIndex: number, width: PictureWidth): CaseSheet {
  return {
    name: evaluation.caseName(caseIndex),
    entries: caseEntries(evaluation, caseIndex),
    values: caseValues(evaluation, caseIndex),
    pictures: casePictures(evaluation, caseIndex, width),
  };
}

function caseEntries({ installation }: Evaluation, caseIndex: number): string {
  const { tree } = installation.document;
  const node = installation.caseNodes[caseIndex] ?? NONE;
  const entries = [...tree.children(node)].filter((child) => tree.key(child) !== 'name');
  return entries.map((child) => `${tree.key(child)}: ${tree.scalar(child)}`).join(', ');
}
