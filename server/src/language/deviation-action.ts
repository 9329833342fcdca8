import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import {
  CATALOGUE,
  type CheckedFile,
  type Document,
  type Finding,
  NONE,
  type NodeIndex,
  quoted,
  type Span,
} from '../engine/index.ts';
import { editOf, entryBehind, type SpanEdit } from './edits.ts';
import type { Workspace } from './workspace.ts';

/** How a file is written and what it refers to is mended, not accepted. */
const JUDGED: ReadonlySet<string> = new Set(
  CATALOGUE.flatMap(({ id, foundBy }) => (foundBy === 'run' || foundBy === 'window' ? [id] : [])),
);

/**
 * Writes down that a finding is to be accepted. Who answers for it is not ours to say: reason and approval stay empty, and
 * the last day is today, so that it accepts nothing before somebody has filled it in.
 */
export function deviationAction(workspace: Workspace, file: CheckedFile, finding: Finding): CodeAction[] {
  const { document } = file;
  if (document.kind !== 'installation' || finding.deviated || !JUDGED.has(finding.check)) return [];
  const entry = entryOf(finding, workspace.repository.options.today);
  return [
    {
      title: `Record a deviation from '${finding.check}', which accepts nothing until reason and approval are entered`,
      kind: CodeActionKind.QuickFix,
      edit: editOf(workspace, document, [writtenInto(document, entry)]),
    },
  ];
}

type Pair = readonly [key: string, text: string, comment: string];

function entryOf({ check, key, case: inCase, value, limit }: Finding, today: string): readonly Pair[] {
  const worst = value === undefined || limit === undefined ? undefined : `${value.number} ${value.unit}`.trim();
  return [
    ['check', check, ''],
    ...(key === '' ? [] : [['key', key, ''] as const]),
    ...(inCase === undefined ? [] : [['case', quotedIfNeeded(inCase), ''] as const]),
    ...(worst === undefined ? [] : [['up_to', worst, 'worse than this opens it again'] as const]),
    ['reason', "''", 'enter why this is acceptable'],
    ['approved_by', "''", 'enter who answers for it'],
    ['until', today, 'enter the last day on which it is accepted'],
  ];
}

function writtenInto(document: Document, entry: readonly Pair[]): SpanEdit {
  const { tree, source } = document;
  const list = tree.find('deviations');
  if (list === NONE) {
    const at = source.text.trimEnd().length;
    return { span: { start: at, end: source.length }, newText: `\ndeviations:\n${block(entry, '  ')}\n` };
  }
  const span = tree.span(list);
  if (tree.childCount(list) === 0) return { span, newText: `\n${block(entry, '  ')}` };
  return entryBehind(document, list, isFlow(document, list) ? flow(entry) : block(entry, ''));
}

function block(entry: readonly Pair[], indent: string): string {
  const lines = entry.map(([key, text, comment]) => `${key}: ${text}${comment && ` # ${comment}`}`);
  return lines.map((line, at) => `${indent}${at === 0 ? '- ' : '  '}${line}`).join('\n');
}

/** In flow style there is no room for comments. */
function flow(entry: readonly Pair[]): string {
  return `{ ${entry.map(([key, text]) => `${key}: ${text}`).join(', ')} }`;
}

function quotedIfNeeded(text: string): string {
  return /^[A-Za-z][\w .-]*$/.test(text) && !/\s$/.test(text) ? text : quoted(text);
}

/** Takes a deviation out that is not needed: its lines, or all of `deviations` with the last one. */
export function withoutDeviation(workspace: Workspace, { document }: CheckedFile, finding: Finding): CodeAction[] {
  const { tree } = document;
  const node = finding.check === 'deviation.not-needed' ? tree.find(finding.key) : NONE;
  const list = tree.parent(node);
  if (node === NONE || (tree.childCount(list) > 1 && isFlow(document, list))) return [];
  const gone = tree.childCount(list) === 1 ? list : node;
  const edit = editOf(workspace, document, [{ span: linesOf(document, gone), newText: '' }]);
  return [{ title: 'Take out this deviation', kind: CodeActionKind.QuickFix, edit }];
}

/** The lines that an entry takes, with their ends. */
function linesOf({ tree, source }: Document, node: NodeIndex): Span {
  const { text } = source;
  const first = tree.hasKey(node) ? tree.keySpan(node).start : tree.span(node).start;
  const last = text.slice(0, tree.span(node).end).trimEnd().length;
  const end = text.indexOf('\n', last);
  return { start: text.lastIndexOf('\n', first) + 1, end: end < 0 ? text.length : end + 1 };
}

function isFlow({ tree, source }: Document, node: NodeIndex): boolean {
  return /[[{]/.test(source.text.charAt(tree.span(node).start));
}
