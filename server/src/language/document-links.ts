import type { DocumentLink } from 'vscode-languageserver';
import type { Workspace } from './workspace.ts';

/** Each path to a document that is there, as a link. */
export function documentLinks(workspace: Workspace, path: string): DocumentLink[] {
  const known = workspace.repository.known(path);
  if (known?.state !== 'read' || !known.document.ours) return [];
  const { source, tree } = known.document;
  return known.references
    .filter((each) => workspace.repository.known(each.path)?.state === 'read')
    .map((each) => ({
      range: source.rangeOf(tree.span(each.node)),
      target: workspace.open.uriOf(each.path),
      tooltip: each.kind === 'installation' ? 'Open this installation' : `Open this ${each.kind}’s data sheet`,
    }));
}
