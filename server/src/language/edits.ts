import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Document, Fix, NodeIndex, Span } from '../engine/index.ts';
import type { Workspace } from './workspace.ts';

/** A change of text in one document. */
export interface SpanEdit {
  readonly span: Span;
  readonly newText: string;
}

export function editOf(workspace: Workspace, document: Document, edits: readonly SpanEdit[]): WorkspaceEdit {
  return { changes: { [workspace.open.uriOf(document.path)]: edits.map((each) => textEdit(document, each)) } };
}

/** The edits of fixes, which may lie in several documents. */
export function editOfFixes(workspace: Workspace, fixes: readonly Fix[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { path, ...edit } of fixes.flatMap(({ edits }) => edits)) {
    const document = workspace.repository.document(path);
    if (document === undefined) continue;
    const uri = workspace.open.uriOf(path);
    changes[uri] = [...(changes[uri] ?? []), textEdit(document, edit)];
  }
  return { changes };
}

function textEdit({ source }: Document, { span, newText }: SpanEdit): TextEdit {
  return { range: source.rangeOf(span), newText };
}

/** Writes `key: value`, or `- item`, behind the last entry of a group or list, in the style that it is written in. */
export function entryBehind(document: Document, group: NodeIndex, entry: string): SpanEdit {
  const { tree, source } = document;
  const { start, end } = tree.span(group);
  if (/^[{[]/.test(source.text.slice(start, end))) {
    const at = start + source.text.slice(start, end - 1).trimEnd().length;
    const separator = tree.childCount(group) === 0 ? ' ' : ', ';
    return { span: { start: at, end: end - 1 }, newText: `${separator}${entry} ` };
  }
  const indent = ' '.repeat(columnOf(document, group));
  const at = endOfLine(source.text, lastOffset(document, group));
  return { span: { start: at, end: at }, newText: `\n${indent}${entry.replaceAll('\n', `\n${indent}`)}` };
}

/** The column of the first entry; of a list, of its dash. */
function columnOf({ tree, source }: Document, group: NodeIndex): number {
  const first = tree.firstChild(group);
  const { start } = tree.hasKey(first) ? tree.keySpan(first) : tree.span(group);
  return source.positionAt(start).character;
}

function lastOffset({ tree, source }: Document, group: NodeIndex): number {
  const { end } = tree.span(group);
  return source.text.slice(0, end).trimEnd().length;
}

function endOfLine(text: string, offset: number): number {
  const at = text.slice(offset).search(/\r?\n|$/);
  return offset + at;
}
