import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import { type CheckedFile, type Finding, nearest, referencesOf } from '../engine/index.ts';
import { editOf } from './edits.ts';
import { pathAsScalar, relativePath } from './reference-paths.ts';
import { nameOf, pathsOfKind } from './sheets.ts';
import type { Workspace } from './workspace.ts';

/** Where a path leads to nothing: the document of the kind due whose path, or file name, is closest to it. */
export function referenceActions(workspace: Workspace, { document }: CheckedFile, finding: Finding): CodeAction[] {
  if (finding.check !== 'reference.not-found') return [];
  const reference = referencesOf(document).find(({ node }) => document.tree.path(node) === finding.key);
  if (reference === undefined) return [];
  const paths = pathsOfKind(workspace, document, reference.kind);
  const written = new Map(paths.map((path) => [relativePath(document.path, path), path]));
  const meant = nearest(reference.written, [...written.keys()]) ?? sameFileName(reference.written, [...written.keys()]);
  if (meant === undefined) return [];
  const name = nameOf(workspace, written.get(meant) ?? '');
  const span = document.tree.span(reference.node);
  return [
    {
      title: `Write '${meant}'${name === undefined ? '' : `, which is ${name}`}`,
      kind: CodeActionKind.QuickFix,
      edit: editOf(workspace, document, [{ span, newText: pathAsScalar(meant) }]),
    },
  ];
}

/** A file that was moved has its old name in another folder. */
function sameFileName(written: string, candidates: readonly string[]): string | undefined {
  const name = written.split('/').at(-1) ?? '';
  const alike = candidates.filter((each) => each.split('/').at(-1) === name);
  return alike.length === 1 ? alike[0] : undefined;
}
