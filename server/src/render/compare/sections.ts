import type {
  BoundChange,
  Comparison,
  DeviationChange,
  EntryChange,
  FindingChange,
  SheetChange,
  StatusChange,
  ValueChange,
  WindowChange,
} from '../../engine/index.ts';
import { type CompareReport, pathOf } from './report.ts';
import { differenceText, entryCount, isLost, nounOf, STATUS_WORDS, summaryOf } from './words.ts';

/** What is told of one document, whatever it is written in. */
export interface Section {
  /** Path as the reader knows it, and the name of well or equipment. */
  readonly title: string;
  /** Stands alone. */
  readonly summary: string;
  readonly blocks: readonly Block[];
}

export interface Block {
  readonly title: string;
  /** Sentences. */
  readonly items: readonly Item[];
  readonly table: Table | undefined;
  /** Details that most readers pass by. */
  readonly isDetail: boolean;
}

export interface Item {
  /** What kind of thing it is, in a word or two: `new error`. */
  readonly lead: string;
  readonly text: string;
  readonly place: string;
}

export interface Table {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export function sectionsOf(report: CompareReport): readonly Section[] {
  return report.fleet.documents.map((comparison) => sectionOf(comparison, report));
}

function sectionOf(comparison: Comparison, report: CompareReport): Section {
  const path = report.nameOf(pathOf(comparison));
  const title = comparison.name === '' ? path : `${comparison.name}, ${path}`;
  return { title, summary: summaryOf(comparison, report), blocks: blocksOf(comparison, report) };
}

function blocksOf(comparison: Comparison, report: CompareReport): readonly Block[] {
  const { entries, rewritten, windows, values } = comparison;
  const isSetpoint = ({ section }: EntryChange) => section === 'setpoints';
  return [
    listBlock(
      'To note',
      comparison.remarks.map((text) => ({ lead: '', text, place: '' })),
    ),
    ...copyBlocks(comparison, report),
    entriesBlock('Setpoints', entries.filter(isSetpoint)),
    entriesBlock(
      entries.some(isSetpoint) ? 'Other entries' : 'Entries',
      entries.filter((each) => !isSetpoint(each)),
    ),
    ...comparison.sheets.flatMap((sheet) => sheetBlock(sheet, report)),
    ...policyBlocks(comparison, report),
    usersBlock(comparison, report),
    listBlock('Findings', comparison.findings.flatMap(findingItems)),
    listBlock('Deviations', comparison.deviations.map(deviationItem)),
    marginsBlock(windows),
    boundsBlock(windows),
    checksBlock(comparison),
    ...valuesBlocks(values),
    ...rewrittenBlocks(rewritten, report),
  ].filter(({ items, table }) => items.length > 0 || (table?.rows.length ?? 0) > 0);
}

function listBlock(title: string, items: readonly Item[], isDetail = false): Block {
  return { title, items, table: undefined, isDetail };
}

function tableBlock(title: string, head: readonly string[], rows: Table['rows'], isDetail = false): Block {
  return { title, items: [], table: { head, rows }, isDetail };
}

const ENTRY_HEAD = ['Entry', 'Before', 'After', 'Change'];

function entriesBlock(title: string, entries: readonly EntryChange[], isDetail = false): Block {
  return tableBlock(title, ENTRY_HEAD, entries.map(entryRow), isDetail);
}

function entryRow({ label, change, before, after, difference }: EntryChange): readonly string[] {
  const told = change === 'added' || change === 'removed' ? change : differenceText(difference);
  return [label, before?.text ?? '(none)', after?.text ?? '(none)', told];
}

function copyBlocks({ copyOf, after }: Comparison, { nameOf }: CompareReport): readonly Block[] {
  if (copyOf === undefined || after === undefined) return [];
  const { path, name, equal, total, entries } = copyOf;
  const text = `${equal} of ${total} entries are those of ${name} (${nameOf(path)}). Look through what was not changed: it must hold for this well too.`;
  return [
    listBlock('Copied', [{ lead: '', text, place: '' }]),
    entriesBlock(`What differs from ${nameOf(path)}`, entries),
  ];
}

/** A sheet that is told by itself is named here with the entries that changed; another sheet in its place is told in full. */
function sheetBlock(
  { entry, before, after, entries }: SheetChange,
  { nameOf, fleet }: CompareReport,
): readonly Block[] {
  const isToldApart = fleet.users.has(after.path);
  const title = `Data sheet behind ${entry}`;
  if (!isToldApart) {
    const same = nameOf(before.path) === nameOf(after.path);
    const text = same ? nameOf(after.path) : `${nameOf(before.path)} before, ${nameOf(after.path)} after`;
    return [
      {
        ...entriesBlock(title, entries, !same),
        items: [{ lead: '', text: `${text}: ${entryCount(entries.length)} differ.`, place: '' }],
      },
    ];
  }
  const named = entries
    .slice(0, MOST_NAMED)
    .map(({ label, before: old, after: now }) => `${label} ${old?.text ?? '(none)'} to ${now?.text ?? '(none)'}`);
  const rest = entries.length - named.length;
  const text = `${nameOf(after.path)}: ${named.join('; ')}${rest > 0 ? `; and ${rest} more` : ''}.`;
  return [listBlock(title, [{ lead: '', text, place: '' }])];
}

const MOST_NAMED = 4;

function policyBlocks({ policy }: Comparison, { nameOf, fleet }: CompareReport): readonly Block[] {
  if (policy === undefined) return [];
  const [before, after] = [policy.before, policy.after].map((path) => (path === undefined ? 'none' : nameOf(path)));
  const text =
    before === after ? `${after}: ${entryCount(policy.entries.length)} changed.` : `${before} before, ${after} after.`;
  const isToldApart = policy.after !== undefined && fleet.users.has(policy.after);
  const items = [{ lead: '', text, place: '' }];
  return [{ ...entriesBlock('Policy', isToldApart ? [] : policy.entries), items }];
}

function usersBlock(comparison: Comparison, { fleet, nameOf }: CompareReport): Block {
  const users = fleet.users.get(pathOf(comparison)) ?? [];
  const rows = users.map(({ path, name, isAffected }) => [
    name,
    nameOf(path),
    isAffected ? 'compared here too' : 'nothing that is worked out or judged changes',
  ]);
  return tableBlock(comparison.kind === 'policy' ? 'Governs' : 'Used by', ['Well', 'File', 'Effect'], rows);
}

function findingItems({ change, check, label, before, after }: FindingChange): readonly Item[] {
  const side = after ?? before;
  if (side === undefined) return [];
  const accepted = side.deviated ? ', accepted by a deviation' : '';
  const lead =
    change === 'gone'
      ? `${side.severity} gone`
      : change === 'new'
        ? `new ${side.severity}`
        : `${side.severity}, still there`;
  const was = change === 'changed' && before !== undefined ? wasText(before, side) : '';
  const line = after === undefined ? '' : `, line ${side.line}`;
  return [
    {
      lead: `${lead}${accepted}`,
      text: `${side.message}${was}`,
      place: `${check}, ${label || 'the whole document'}${line}`,
    },
  ];
}

/** What a finding said before, or that only its weight is another. */
function wasText(before: NonNullable<FindingChange['before']>, after: NonNullable<FindingChange['after']>): string {
  if (before.severity !== after.severity) return ` (It was a ${before.severity} before.)`;
  if (before.deviated !== after.deviated)
    return before.deviated ? ' (It was accepted before.)' : ' (It was open before.)';
  return ` Before: ${before.message}`;
}

function deviationItem(deviation: DeviationChange): Item {
  const { change, check, key, case: name, before, after, isExpired } = deviation;
  const side = after ?? before;
  const lead = isExpired && change !== 'expired' ? `${change}, and expired` : change;
  const parts = [
    after?.upTo === undefined ? '' : `up to ${after.upTo}`,
    `until ${moved(before?.until, after?.until)}`,
    `approved by ${side?.approvedBy || 'nobody'}`,
    `reason: ${side?.reason || 'none given'}`,
  ];
  const place = [check, key ?? '', name === undefined ? '' : `case '${name}'`].filter((part) => part !== '').join(', ');
  return { lead, text: `${parts.filter((part) => part !== '').join('; ')}.`, place };
}

function moved(before: string | undefined, after: string | undefined): string {
  if (before === undefined || after === undefined || before === after) return (after ?? before) || 'no day';
  return `${after || 'no day'} (before: ${before || 'no day'})`;
}

const MARGIN_HEAD = ['Setpoint', 'Set before', 'Set after', 'Margin before', 'Margin after', 'Change', 'Nearest bound'];

/** Where setpoints stand in their windows: those that moved, or came nearer to a hard bound, or further from it. */
function marginsBlock(windows: readonly WindowChange[]): Block {
  const told = windows.filter(
    ({ before, after, difference }) => difference !== undefined || before?.set?.text !== after?.set?.text,
  );
  return tableBlock('Margins to the nearest hard bound', MARGIN_HEAD, told.map(marginRow));
}

function marginRow(window: WindowChange): readonly string[] {
  const { before, after, difference } = window;
  return [
    nounOf(window),
    setText(before),
    setText(after),
    before?.margin?.text ?? 'none',
    after?.margin?.text ?? 'none',
    differenceText(difference),
    nearestText(window),
  ];
}

function setText(side: WindowChange['after']): string {
  if (side === undefined) return 'no such setpoint';
  return side.set?.text ?? (side.missing.length === 0 ? 'not set' : `not known, lacks ${side.missing.join(', ')}`);
}

function nearestText({ after, before, bounds }: WindowChange): string {
  const id = after?.nearest ?? before?.nearest;
  const bound = bounds.find((each) => each.id === id);
  if (bound === undefined) return '';
  const name = (bound.after ?? bound.before)?.case;
  return `${bound.name}${name === undefined ? '' : `, case '${name}'`}`;
}

const BOUND_HEAD = ['Bound', 'Before', 'After', 'Margin before', 'Margin after'];

function boundsBlock(windows: readonly WindowChange[]): Block {
  const rows = windows.flatMap((window) =>
    window.bounds.filter(({ isMoved }) => isMoved).map((bound) => boundRow(window, bound)),
  );
  return tableBlock('Bounds that moved', BOUND_HEAD, rows, true);
}

function boundRow(window: WindowChange, { id, side, hard, before, after }: BoundChange): readonly string[] {
  const way = `${side === 'lower' ? 'at least' : 'at most'}, ${hard ? 'hard' : 'soft'}`;
  return [
    `${nounOf(window)} ${way} (${id})`,
    limitText(before),
    limitText(after),
    before?.margin?.text ?? '',
    after?.margin?.text ?? '',
  ];
}

function limitText(side: BoundChange['after']): string {
  if (side === undefined) return 'does not concern it';
  const lacks = side.missing.length === 0 ? '' : `, lacks ${side.missing.join(', ')}`;
  const inCase = side.case === undefined ? '' : ` (${side.case})`;
  return `${side.limit?.text ?? 'not known'}${inCase}${lacks}`;
}

/** The checks that ended differently, but for those whose findings came or went and are told already. */
function checksBlock({ statuses, findings }: Comparison): Block {
  const told = new Set(findings.filter(({ change }) => change !== 'changed').map(({ check }) => check));
  const rest = statuses.filter(
    (each) => isLost(each) || !(told.has(each.check) && (each.after === 'finding' || each.after === 'passed')),
  );
  const sorted = [...rest].sort((a, b) => Number(isLost(b)) - Number(isLost(a)));
  return tableBlock('Checks that ended differently', ['Check', 'Before', 'After', 'Why'], sorted.map(checkRow));
}

function checkRow({ check, title, before, after, missing, reason }: StatusChange): readonly string[] {
  return [`${title} (${check})`, STATUS_WORDS[before], STATUS_WORDS[after], whyText(after, missing, reason)];
}

function whyText(after: StatusChange['after'], missing: readonly string[], reason: string | undefined): string {
  if (missing.length > 0) return `${after === 'not_run' ? 'lacks' : 'lacked'} ${missing.join(', ')}`;
  if (reason !== undefined) return reason;
  return after === 'finding' ? 'follows from a finding above' : '';
}

const VALUE_HEAD = ['Value', 'Before', 'After', 'Change', 'Case'];
const MOST_SHOWN = 8;

/** The values that changed: those that matter most in view, the others among the details. */
function valuesBlocks(values: readonly ValueChange[]): readonly Block[] {
  const rows = [...groupedById(values)].map(valueRow);
  const first = rows.slice(0, MOST_SHOWN);
  const rest = rows.slice(MOST_SHOWN);
  const title =
    rest.length === 0
      ? 'Worked values that changed'
      : `Worked values that changed, the first ${first.length} of ${rows.length}`;
  return [
    tableBlock(title, VALUE_HEAD, first),
    tableBlock(`${rest.length} more worked values that changed`, VALUE_HEAD, rest, true),
  ];
}

/** One value in several cases is one line, that of the case in which it changed most. */
function groupedById(values: readonly ValueChange[]): Iterable<readonly ValueChange[]> {
  const groups = new Map<string, ValueChange[]>();
  for (const value of values) groups.set(value.id, [...(groups.get(value.id) ?? []), value]);
  return groups.values();
}

function valueRow(group: readonly ValueChange[]): readonly string[] {
  const [most] = group as readonly [ValueChange];
  const { title, id, before, after, difference, reason, case: name } = most;
  const others = group.length - 1;
  const cases = name === undefined ? 'whole file' : `${name}${others === 0 ? '' : ` and ${others} more`}`;
  return [
    `${title} (${id})`,
    before?.text ?? 'none',
    after?.text ?? 'none',
    reason ?? differenceText(difference),
    cases,
  ];
}

function rewrittenBlocks(rewritten: readonly EntryChange[], { showsRewritten }: CompareReport): readonly Block[] {
  if (rewritten.length === 0) return [];
  if (showsRewritten)
    return [
      tableBlock(
        'The same in other words',
        ['Entry', 'Before', 'After'],
        rewritten.map((each) => entryRow(each).slice(0, 3)),
      ),
    ];
  const text = `${entryCount(rewritten.length)} ${rewritten.length === 1 ? 'says' : 'say'} the same in another unit or spelling.`;
  return [listBlock('The same in other words', [{ lead: '', text, place: '' }])];
}
