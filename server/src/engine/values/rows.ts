import type { Installation, Located } from '../links/installation.ts';
import { stepsOf } from '../syntax/tree.ts';
import type { RowsSource } from './declare.ts';
import type { Steps } from './lookups.ts';

/** A column of a list, with its path taken apart. */
export interface ColumnLookup {
  readonly name: string;
  readonly steps: Steps;
  readonly isText: boolean;
  readonly isOptional: boolean;
}

export function columnsOf({ columns }: RowsSource): readonly ColumnLookup[] {
  return Object.entries(columns).map(([name, column]) => ({
    name,
    steps: stepsOf(name),
    isText: column.startsWith('text'),
    isOptional: column.endsWith('?'),
  }));
}

export type Cells = Readonly<Record<string, unknown>>;
export type Rows = readonly Cells[];

/** The rows of a list; undefined where it is absent, empty, or lacks a cell that must be there. */
export function readRows(
  installation: Installation,
  located: Located | undefined,
  columns: readonly ColumnLookup[],
): Rows | undefined {
  const nodes = located === undefined ? [] : rowNodesAt(located);
  if (nodes.length === 0) return undefined;
  const rows: Cells[] = [];
  for (const node of nodes) {
    const row = readRow(installation, node, columns);
    if (row === undefined) return undefined;
    rows.push(row);
  }
  return rows;
}

/** Where the rows of a list stand; a mapping counts as its only row. */
export function rowNodesAt(located: Located): readonly Located[] {
  const { document, node } = located;
  if (!document.tree.isSequence(node)) return [located];
  return [...document.tree.children(node)].map((item) => ({ document, node: item }));
}

function readRow(installation: Installation, row: Located, columns: readonly ColumnLookup[]): Cells | undefined {
  const cells: Record<string, unknown> = {};
  for (const { name, steps, isText, isOptional } of columns) {
    const located = cellAt(installation, row, steps);
    const cell = located === undefined ? undefined : readCell(installation, located, isText);
    if (cell === undefined && !isOptional) return undefined;
    cells[name] = cell;
  }
  return cells;
}

/** A cell of a row; a row of the installation may have a data sheet of its own behind it. */
export function cellOf(installation: Installation, row: Located, column: string): Located | undefined {
  return cellAt(installation, row, stepsOf(column));
}

function cellAt(installation: Installation, row: Located, steps: Steps): Located | undefined {
  if (row.document === installation.document) return installation.locateFrom(row.node, steps);
  const { tree } = row.document;
  let at = row.node;
  for (const each of steps) at = typeof each === 'number' ? tree.item(at, each) : tree.child(at, each);
  return at < 0 || tree.isAbsent(at) ? undefined : { document: row.document, node: at };
}

function readCell(installation: Installation, located: Located, isText: boolean): unknown {
  if (isText) return installation.text(located);
  const number = installation.number(located);
  return Number.isFinite(number) ? number : undefined;
}

/** Whether two readings of a list have the same cells. */
export function sameRows(a: Rows, b: Rows): boolean {
  return a.length === b.length && a.every((row, at) => sameCells(row, b[at] as Cells));
}

function sameCells(a: Cells, b: Cells): boolean {
  for (const name in a) if (!Object.is(a[name], b[name])) return false;
  return true;
}
