import { LSPErrorCodes, ResponseError, type WorkspaceEdit } from 'vscode-languageserver';
import { isInside, type Range, type Reference, resolvePath } from '../engine/index.ts';
import type { Client } from './client.ts';
import { referenceAt } from './definition.ts';
import { editsForMove } from './moves.ts';
import type { Subject } from './subject.ts';
import { toUri } from './uris.ts';

/** The path of a data sheet, or of an installation, as the one thing here whose name is a choice of its author's. */
export function prepareRename(subject: Subject): { range: Range; placeholder: string } | null {
  const reference = referenceAt(subject);
  if (reference === undefined || subject.workspace.document(reference.path) === undefined) return null;
  const { source, tree } = subject.document;
  return { range: source.rangeOf(tree.span(reference.node)), placeholder: reference.written };
}

/**
 * Renames the file behind a path, with all documents that name it.
 * @throws ResponseError that says in a sentence why it cannot be
 */
export async function renameAt(subject: Subject, newName: string, client: Client): Promise<WorkspaceEdit> {
  const reference = referenceAt(subject);
  if (reference === undefined) throw refusal('Only the path of another document can be renamed here.');
  const { workspace } = subject;
  const target = resolvePath(subject.document.path, newName.trim());
  const obstacle = await obstacleTo(subject, reference, newName, target, client);
  if (obstacle !== undefined) throw refusal(obstacle);
  const edits = await editsForMove(workspace, (path) => (path === reference.path ? target : path));
  const rename = { kind: 'rename' as const, oldUri: workspace.open.uriOf(reference.path), newUri: toUri(target) };
  return { documentChanges: [...edits, rename] };
}

async function obstacleTo(
  { workspace, document }: Subject,
  { path, written }: Reference,
  newName: string,
  target: string,
  client: Client,
): Promise<string | undefined> {
  if (!client.renamesFiles)
    return 'This editor cannot rename files for a language server. Rename the file in its folder.';
  if (workspace.document(path) === undefined) return `There is no file '${written}' to rename.`;
  if (!/\.ya?ml$/.test(newName.trim()))
    return `'${newName}' does not end with .yaml, so it would be no document of ours.`;
  if (/^[/\\]|^[a-z]+:/i.test(newName.trim()) || !isInside(target, workspace.repository.rootOf(document.path)))
    return `'${newName}' leads out of the repository. Name a path inside it, from this file on.`;
  if (target === path) return undefined;
  const isTaken = workspace.open.get(target) !== undefined || (await workspace.isOnDisk(target));
  return isTaken ? `There is a file '${newName}' already. Choose another name.` : undefined;
}

function refusal(message: string): ResponseError {
  return new ResponseError(LSPErrorCodes.RequestFailed, message);
}
