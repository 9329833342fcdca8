import type { CancellationToken, FileRename, TextDocumentEdit, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { type Document, isInside, type Reference, referencesOf, resolvePath } from '../engine/index.ts';
import { pathAsScalar, relativePath } from './reference-paths.ts';
import { stopIfCancelled } from './session.ts';
import { toPath } from './uris.ts';
import type { Workspace } from './workspace.ts';

/** Where a path is after files or folders were moved. */
export type Moved = (path: string) => string;

/** What is to be changed in documents before files move, so that every reference still leads where it led. */
export async function editsBeforeMove(
  workspace: Workspace,
  files: readonly FileRename[],
  token: CancellationToken,
): Promise<WorkspaceEdit | null> {
  const edits = await editsForMove(workspace, movedBy(files));
  stopIfCancelled(token);
  const changes = Object.fromEntries(
    edits.map(({ textDocument, edits: own }) => [textDocument.uri, own as TextEdit[]]),
  );
  return edits.length === 0 ? null : { changes };
}

/** The edits, each to a document under its name of before. */
export async function editsForMove(workspace: Workspace, moved: Moved): Promise<readonly TextDocumentEdit[]> {
  // A user that was not known of would be left with a path to nothing.
  await workspace.closed.readAll();
  // A text as it stood before the last edit would be changed at the wrong places.
  await workspace.settle();
  const edits: TextDocumentEdit[] = [];
  for (const path of concernedBy(workspace, moved)) {
    const document = await workspace.documentNow(path);
    const own = document === undefined ? [] : referenceEdits(document, moved);
    if (own.length === 0) continue;
    const open = workspace.open.get(path);
    const textDocument = { uri: workspace.open.uriOf(path), version: open?.text.version ?? null };
    edits.push({ textDocument, edits: own });
  }
  return edits;
}

function movedBy(files: readonly FileRename[]): Moved {
  const moves = files.map(({ oldUri, newUri }) => ({ from: toPath(oldUri), to: toPath(newUri) }));
  return (path) => {
    const move = moves.find(({ from }) => isInside(path, from));
    return move === undefined ? path : move.to + path.slice(move.from.length);
  };
}

/** Documents that move, and those that refer to what moves. */
function concernedBy(workspace: Workspace, moved: Moved): readonly string[] {
  const { repository, closed } = workspace;
  const isConcerned = (path: string, targets: readonly string[]) =>
    [path, ...targets].some((each) => moved(each) !== each);
  const known = repository.paths().filter((path) => isConcerned(path, targetsOf(workspace, path)));
  const others = closed.listed().filter(({ path, references }) => isConcerned(path, references));
  return [...new Set([...known, ...others.map(({ path }) => path)])].sort();
}

function targetsOf({ repository }: Workspace, path: string): readonly string[] {
  const known = repository.known(path);
  return known?.state === 'read' && known.document.ours ? known.references.map((each) => each.path) : [];
}

function referenceEdits(document: Document, moved: Moved): TextEdit[] {
  const { source, tree } = document;
  return referencesOf(document)
    .filter((reference) => isBroken(document.path, reference, moved))
    .map(({ node, path }) => ({
      range: source.rangeOf(tree.span(node)),
      newText: pathAsScalar(relativePath(moved(document.path), moved(path))),
    }));
}

function isBroken(from: string, { path, written }: Reference, moved: Moved): boolean {
  return !/^[/\\]|^[a-z][a-z0-9+.-]*:/i.test(written) && resolvePath(moved(from), written) !== moved(path);
}
