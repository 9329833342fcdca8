import type { Position } from 'vscode-languageserver';
import { type CheckedFile, type Document, NONE, type NodeIndex, type Shape } from '../engine/index.ts';
import type { Workspace } from './workspace.ts';

/** What a request is about: a place in a document that is checked. */
export interface Subject {
  readonly workspace: Workspace;
  readonly file: CheckedFile;
  readonly document: Document;
  readonly offset: number;
  /** The innermost node at the place; `NONE` between entries. */
  readonly node: NodeIndex;
  readonly shape: Shape | undefined;
}

/** The subject at a position; undefined in a file that is not ours, and at a position that is not in the text. */
export function subjectAt(workspace: Workspace, path: string, position: Position): Subject | undefined {
  const file = workspace.check(path);
  if (file === undefined) return undefined;
  const { document } = file;
  const offset = offsetOf(document, position);
  if (offset === undefined) return undefined;
  const node = entryAt(document, offset);
  return { workspace, file, document, offset, node, shape: document.shapes[node] };
}

function offsetOf({ source }: Document, { line, character }: Position): number | undefined {
  const isIn = Number.isInteger(line) && line >= 0 && line < source.lineStarts.length && character >= 0;
  return isIn ? source.offsetAt({ line, character }) : undefined;
}

/** The entry at an offset: on its key, on its value, or on the blanks between. */
function entryAt({ tree }: Document, offset: number): NodeIndex {
  const node = tree.nodeAt(offset);
  if (node === NONE || tree.isScalar(node) || isOnKey(tree.keySpan(node), offset)) return node;
  return tree.hasKey(node) && onSameLine(tree.source.text, tree.keySpan(node).end, offset) ? node : NONE;
}

function isOnKey({ start, end }: { start: number; end: number }, offset: number): boolean {
  return offset >= start && offset <= end;
}

function onSameLine(text: string, from: number, to: number): boolean {
  return to >= from && !/[\r\n{[]/.test(text.slice(from, to));
}
