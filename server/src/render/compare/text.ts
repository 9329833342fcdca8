import { visible } from '../escape.ts';
import type { Paint } from '../paint.ts';
import { DEFERS, wrap } from '../text/lines.ts';
import type { CompareReport } from './report.ts';
import { type Block, type Item, type Section, sectionsOf, type Table } from './sections.ts';
import { totalsOf } from './words.ts';

export interface CompareTextOptions {
  readonly paint: Paint;
  readonly width: number;
}

/** A comparison for a terminal: the whole in a line, each document in a line, then what changed in each. */
export function comparisonText(report: CompareReport, options: CompareTextOptions): string {
  const { paint, width } = options;
  const sections = sectionsOf(report);
  const lines = [
    paint.strong(visible(`Comparison of ${report.before} with ${report.after}`)),
    ...wrap(visible(totalsOf(report)), width, ''),
    '',
    ...sections.flatMap(({ summary }) => wrap(visible(summary), width, '    ', '  ')),
    ...(sections.length === 0 ? [] : ['']),
    ...wrap(DEFERS, width, ''),
    ...sections.flatMap((section) => sectionLines(section, options)),
  ];
  return `${lines.join('\n')}\n`;
}

function sectionLines({ title, blocks }: Section, options: CompareTextOptions): readonly string[] {
  const left = blocks.filter(({ isDetail }) => isDetail);
  return [
    '',
    options.paint.strong(visible(title)),
    ...blocks.filter(({ isDetail }) => !isDetail).flatMap((block) => blockLines(block, options)),
    ...(left.length === 0 ? [] : ['', ...wrap(visible(leftOut(left)), options.width, '    ', '  ')]),
  ];
}

/** Details are for a page that can be leafed through, but nothing is left out without a word. */
function leftOut(blocks: readonly Block[]): string {
  const named = blocks.map(({ title, table }) => `${title} (${table?.rows.length ?? 0})`);
  return `Not shown here: ${named.join('; ')}. The other formats list them.`;
}

function blockLines({ title, items, table }: Block, options: CompareTextOptions): readonly string[] {
  return [
    '',
    `  ${visible(title)}`,
    ...items.flatMap((item) => itemLines(item, options)),
    ...(table === undefined ? [] : tableLines(table, options.width)),
  ];
}

function itemLines({ lead, text, place }: Item, { width, paint }: CompareTextOptions): readonly string[] {
  const told = `${lead === '' ? '' : `${lead}: `}${text}`;
  return [
    ...wrap(visible(told), width, '      ', '    '),
    ...(place === '' ? [] : wrap(visible(place), width, '      ').map(paint.faint)),
  ];
}

const INDENT = '    ';
const GAP = '  ';
const NARROWEST = 6;
const TIE = '\u00a0';

/** In columns; a cell that is too wide for its column goes on in lines of its own below the first. */
function tableLines({ head, rows }: Table, width: number): readonly string[] {
  const cells = [head, ...rows].map((row) => row.map((cell) => tied(visible(cell))));
  const room = width - INDENT.length - GAP.length * (head.length - 1);
  const columns = fitted(
    head.map((_, at) => widest(cells.map((row) => row[at] ?? ''))),
    head.map((_, at) => widest(cells.flatMap((row) => (row[at] ?? '').split(BREAKS)))),
    room,
  );
  return cells.flatMap((row) => rowLines(row, columns));
}

function widest(texts: readonly string[]): number {
  return Math.max(NARROWEST, ...texts.map(({ length }) => length));
}

/** Takes from the widest column as long as they do not fit: first what no word needs, then what is left to take. */
function fitted(wanted: readonly number[], least: readonly number[], room: number): readonly number[] {
  const columns = [...wanted];
  let excess = columns.reduce((sum, each) => sum + each, 0) - room;
  for (const floor of [least, least.map(() => NARROWEST)]) {
    while (excess > 0) {
      const open = columns.map((each, at) => (each > (floor[at] ?? 0) ? each : 0));
      const most = open.indexOf(Math.max(...open));
      if (open[most] === 0) break;
      columns[most] = (columns[most] ?? 0) - 1;
      excess--;
    }
  }
  return columns;
}

function rowLines(row: readonly string[], columns: readonly number[]): readonly string[] {
  const wrapped = row.map((cell, at) => broken(cell, columns[at] ?? NARROWEST));
  const height = Math.max(...wrapped.map(({ length }) => length));
  return Array.from({ length: height }, (_, line) => {
    const cells = wrapped.map((lines, at) => (lines[line] ?? '').padEnd(columns[at] ?? NARROWEST));
    return `${INDENT}${cells.join(GAP)}`.replaceAll(TIE, ' ').trimEnd();
  });
}

/** Keeps a number and its unit on one line: a space that is no place to break. */
function tied(text: string): string {
  return text.replace(/(\d) (?=[%A-Za-z])/g, `$1${TIE}`);
}

/** Where a cell may be broken: between words, and before a step of a long key. */
const BREAKS = / |(?=[.[_])/;

function broken(text: string, width: number): readonly string[] {
  return wrap(text, width, '').flatMap((line) => steps(line, width));
}

/** A line that is too wide, broken before the steps of a key; what has none is cut. */
function steps(line: string, width: number): readonly string[] {
  if (line.length <= width) return [line];
  const head = line.slice(0, width + 1);
  const step = Math.max(...['.', '[', '_'].map((mark) => head.lastIndexOf(mark)));
  const at = step > 0 ? step : width;
  return [line.slice(0, at), ...steps(line.slice(at), width)];
}
