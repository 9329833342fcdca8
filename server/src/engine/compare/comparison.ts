import type { CheckedFile } from '../check-document.ts';
import { type Counts, countsOf } from '../findings/counts.ts';
import type { Document } from '../format/document.ts';
import type { DocumentKind } from '../format/shape.ts';
import { allFindings, compareFindings, compareStatuses, type FindingChange, type StatusChange } from './checks.ts';
import type { Copy } from './copies.ts';
import { allDeviations, compareDeviations, type DeviationChange } from './deviations.ts';
import { compareEntries, type EntryChange } from './entries.ts';
import { compareWindows, type WindowChange } from './margins.ts';
import { comparePolicies, comparePolicyEntries, type PolicyChange } from './policy.ts';
import { compareSheets, type SheetChange } from './sheets.ts';
import { compareValues, type ValueChange } from './values.ts';

/** Two states of one document, in engineering terms. */
export interface Comparison {
  /** Undefined for a document that is new, or gone. */
  readonly before: DocumentSide | undefined;
  readonly after: DocumentSide | undefined;
  readonly kind: DocumentKind | undefined;
  /** Name of the well or of the equipment; empty where none is entered. */
  readonly name: string;
  /** `affected` has the same text and other data sheets, policy or neighbours; `same` differs in nothing that is compared. */
  readonly change: 'added' | 'removed' | 'changed' | 'affected' | 'same';
  /** Setpoints first, then by section. Deviations are not among them. */
  readonly entries: readonly EntryChange[];
  /** Entries that say the same in another unit or spelling. */
  readonly rewritten: readonly EntryChange[];
  readonly values: readonly ValueChange[];
  readonly windows: readonly WindowChange[];
  readonly statuses: readonly StatusChange[];
  readonly findings: readonly FindingChange[];
  readonly deviations: readonly DeviationChange[];
  readonly sheets: readonly SheetChange[];
  readonly policy: PolicyChange | undefined;
  /** The one that a new installation is most like, if it is much like one. */
  readonly copyOf: Copy | undefined;
  /** What a reviewer should know besides, in full sentences. */
  readonly remarks: readonly string[];
}

export interface DocumentSide {
  readonly path: string;
  readonly counts: Counts;
  /** Revision as entered; empty where it is not. */
  readonly revision: string;
}

/** In the order in which a reviewer looks: what is set first, then what it is set for. */
const SECTIONS = [
  'setpoints',
  'operation',
  'equipment',
  'well',
  'reservoir',
  'fluid',
  'supply',
  'conventions',
  'lift',
  'site',
];

/** Compares two checked states of one document. @throws Error where there is neither */
export function compareFiles(before: CheckedFile | undefined, after: CheckedFile | undefined): Comparison {
  if (before !== undefined && after !== undefined) return comparePair(before, after);
  if (after !== undefined) return added(after);
  if (before !== undefined) return { ...NOTHING, ...headingOf(before, undefined), change: 'removed' };
  throw new Error('There is nothing to compare.');
}

const NOTHING = {
  ...{ entries: [], rewritten: [], values: [], windows: [], statuses: [], findings: [], deviations: [], sheets: [] },
  ...{ policy: undefined, copyOf: undefined, remarks: [] },
};

function added(after: CheckedFile): Comparison {
  const [findings, deviations] = [allFindings(after), allDeviations(after)];
  return { ...NOTHING, ...headingOf(undefined, after), change: 'added', findings, deviations };
}

function comparePair(before: CheckedFile, after: CheckedFile): Comparison {
  const all = entriesOf(before.document, after.document);
  const windows = before.worked && after.worked ? compareWindows(before.worked, after.worked) : [];
  const parts = {
    entries: all.filter(({ change }) => change !== 'rewritten'),
    rewritten: all.filter(({ change }) => change === 'rewritten'),
    windows,
    values:
      before.worked && after.worked ? compareValues(before.worked.evaluation, after.worked.evaluation, windows) : [],
    statuses: compareStatuses(before, after),
    findings: compareFindings(before, after),
    deviations: compareDeviations(before, after),
    sheets: compareSheets(before, after),
    policy: after.document.kind === 'installation' ? comparePolicies(before, after) : undefined,
  };
  const remarks = remarksOn(before, after, parts);
  return { ...headingOf(before, after), ...parts, copyOf: undefined, remarks, change: changeOf(before, after, parts) };
}

type Parts = Omit<Comparison, 'before' | 'after' | 'kind' | 'name' | 'change' | 'copyOf' | 'remarks'>;

function changeOf({ document: old }: CheckedFile, { document: now }: CheckedFile, parts: Parts): Comparison['change'] {
  if (old.source.text !== now.source.text) return 'changed';
  const { values, windows, statuses, findings, deviations, sheets, policy } = parts;
  const lists = [values, windows, statuses, findings, deviations, sheets];
  return policy !== undefined || lists.some((list) => list.length > 0) ? 'affected' : 'same';
}

function headingOf(before: CheckedFile | undefined, after: CheckedFile | undefined) {
  const { document } = (after ?? before) as CheckedFile;
  const { tree } = document;
  const name = tree.scalar(tree.find(document.kind === 'installation' ? 'site.well' : 'name')).trim();
  return { before: before && sideOf(before), after: after && sideOf(after), kind: document.kind, name };
}

function sideOf(file: CheckedFile): DocumentSide {
  const { path, tree } = file.document;
  return { path, counts: countsOf(file), revision: tree.scalar(tree.find('revision.number')).trim() };
}

/** The entries that differ; a deviation is more than an entry and is told apart from them. */
function entriesOf(before: Document, after: Document): readonly EntryChange[] {
  if (after.kind === 'policy' && before.kind === 'policy') return comparePolicyEntries(before, after);
  const entries = compareEntries(before, after).filter(({ section }) => section !== 'deviations');
  return entries.sort((a, b) => placeOf(a) - placeOf(b));
}

function placeOf({ section }: EntryChange): number {
  const place = SECTIONS.indexOf(section);
  return place < 0 ? SECTIONS.length : place;
}

function remarksOn(before: CheckedFile, after: CheckedFile, parts: Parts): readonly string[] {
  return [
    ...brokenRemarks('before', before),
    ...brokenRemarks('after', after),
    ...revisionRemarks(before.document, after.document, parts),
    ...layoutRemarks(before.document, after.document, parts),
  ];
}

function brokenRemarks(when: 'before' | 'after', { document, worked }: CheckedFile): readonly string[] {
  const state = when === 'before' ? 'Before the change' : 'After the change';
  const isBroken = document.problems.some(({ check }) => UNREADABLE.has(check));
  if (isBroken) return [`${state} the file cannot be read whole, so this comparison is not complete.`];
  if (document.kind !== 'installation' || worked !== undefined) return [];
  return [`${state} the values could not be worked out, so neither values nor margins are compared.`];
}

const UNREADABLE = new Set(['document.syntax', 'document.not-text', 'document.too-large', 'document.alias-limit']);

function revisionRemarks(before: Document, after: Document, { entries }: Parts): readonly string[] {
  if (after.kind !== 'installation' || entries.every(({ section }) => section === 'revision')) return [];
  const [old, now] = [before, after].map(({ tree }) => tree.scalar(tree.find('revision.number')).trim());
  if (old !== now) return [];
  return now === '' ? [] : [`Entries changed and the revision is still ${now}.`];
}

function layoutRemarks(
  before: Document,
  after: Document,
  { entries, rewritten, deviations }: Parts,
): readonly string[] {
  const isSame = [entries, rewritten, deviations].every((list) => list.length === 0);
  if (!isSame || before.source.text === after.source.text) return [];
  return ['Only comments, layout or the order of entries changed.'];
}
