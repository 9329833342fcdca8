import type { Finding } from '../../engine/index.ts';
import type { Summary } from '../report.ts';
import { counted } from '../text/lines.ts';
import type { Heading } from './model.ts';
import type { InputRow, ValueSheet } from './values.ts';
import type { BoundRow, WindowSheet } from './windows.ts';

/** How places are told to a reader. */
export interface Reader {
  /** A path as the reader knows it. */
  readonly nameOf: (path: string) => string;
  /** An entry's line: of the installation itself without a path, of a data sheet by its file's name. */
  readonly placeOf: (path: string, line: number) => string;
}

export function readerOf({ path: own, sheets }: Heading, nameOf: (path: string) => string): Reader {
  const lastStep = (path: string) => path.slice(path.lastIndexOf('/') + 1);
  const isAlone = (path: string) => sheets.filter((each) => lastStep(each) === lastStep(path)).length === 1;
  const shortOf = (path: string) => (isAlone(path) ? lastStep(path) : nameOf(path));
  return { nameOf, placeOf: (path, line) => (path === own ? `line ${line}` : `${shortOf(path)}:${line}`) };
}

/** What each worksheet says of itself, in the order in which it is printed. */
export function headingRows(
  { well, site, ...heading }: Heading,
  { nameOf }: Reader,
): readonly (readonly [string, string])[] {
  const rows: readonly (readonly [string, string])[] = [
    ['Well', well],
    ['Site', site],
    ['File', nameOf(heading.path)],
    ['Data sheets', heading.sheets.map(nameOf).join(', ')],
    ['Revision', heading.revision],
    ['Prepared by', heading.preparedBy],
    ['Checked by', heading.checkedBy],
    ['Date of this check', heading.date],
    ['Fingerprint', heading.fingerprint],
  ];
  return rows.filter(([, text]) => text !== '');
}

/** The counts of a summary in a sentence. */
export function countsText({ errors, warnings, notes, deviated, notRun, setAside }: Summary): string {
  const found = [counted(errors, 'error'), counted(warnings, 'warning'), counted(notes, 'note')].join(', ');
  const rest = [`${deviated} accepted by a deviation`, `${counted(notRun, 'check')} not run`, `${setAside} set aside`];
  return `${found}; ${rest.join(', ')}.`;
}

/** Where a finding stands, and in which case. */
export function findingPlace({ path, range, key, check, case: name }: Finding, reader: Reader): string {
  const inCase = name === undefined ? '' : `, in the case '${name}'`;
  return `${check}${inCase}, ${key === '' ? 'the whole document' : key}, ${reader.placeOf(path, range.start.line + 1)}`;
}

export function severityText({ severity, deviated }: Finding): string {
  return deviated ? `${severity}, accepted` : severity;
}

/** The name of an input in words: what the declaration writes as `tubingPressure`. */
export function inputName({ name }: InputRow): string {
  return name.replace(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
}

/** What an input is called outside of its formula: the key and place of an entry, or the id of another value. */
export function inputOrigin({ id, key, place, assumed }: InputRow, reader: Reader): string {
  const where = place === undefined ? '' : `, ${reader.placeOf(place.path, place.line)}`;
  const name = key === undefined ? (id ?? '') : `${key}${where}`;
  return assumed === undefined ? name : [name, `assumed: ${assumed}`].filter((part) => part !== '').join('; ');
}

export function notConcernedText({ notConcerned }: ValueSheet): string {
  return `Do not concern this lift, motor or case: ${notConcerned.join(', ')}.`;
}

/** What a reader may and may not take from the whole. */
export const HOW_TO_READ =
  'Each number is worked out from the entries named beside it. A line is one of this file unless another is named; "assumed" marks what stands in for an entry that is not there.';

/** Where a setpoint stands in its window, and what the rule of the window would take. */
export function windowText({ set, missing, recommended, rule }: WindowSheet): string {
  const state = set === undefined ? `not known, lacks ${missing.join(', ')}` : `set to ${set}`;
  const advice = recommended === undefined ? 'none recommended' : `recommended ${recommended}`;
  return `${state}; ${advice}${rule === undefined ? '' : ` (rule: ${rule})`}.`;
}

export function boundReason({ name, corner, consequence, source }: BoundRow): string {
  return `${name}${corner === undefined ? '' : `, with ${corner}`}: beyond it ${consequence}. Source: ${source}.`;
}
