import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import { type CheckedFile, NONE, type Range } from '../engine/index.ts';
import { editOf } from './edits.ts';
import { rewritten } from './other-units.ts';
import type { Workspace } from './workspace.ts';

/** Rewrites a quantity in another unit. */
export const CONVERT = `${CodeActionKind.RefactorRewrite}.setproof.units`;

/** At a quantity: the same in the other units that are usual there. */
export function unitActions(workspace: Workspace, { document }: CheckedFile, range: Range): CodeAction[] {
  const { tree, source, quantities, shapes } = document;
  const node = tree.nodeAt(source.offsetAt(range.start));
  const quantity = node === NONE ? undefined : quantities[node];
  // Two readings of one value would both have to change.
  if (quantity === undefined || tree.scalar(node).includes('=')) return [];
  return rewritten(quantity, shapes[node]).map((newText) => ({
    title: `Write ${newText} for ${tree.scalar(node)}`,
    kind: CONVERT,
    edit: editOf(workspace, document, [{ span: tree.span(node), newText }]),
  }));
}
