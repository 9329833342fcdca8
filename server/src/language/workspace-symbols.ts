import { type CancellationToken, SymbolKind, type WorkspaceSymbol } from 'vscode-languageserver';
import { visible } from '../render/escape.ts';
import { type NamedPlace, namedPlaces } from './named-places.ts';
import { stopIfCancelled } from './session.ts';
import type { Workspace } from './workspace.ts';

/** An editor asks again with more letters; nobody reads a longer list. */
const MOST = 200;

const KINDS: Readonly<Record<NamedPlace['what'], SymbolKind>> = {
  well: SymbolKind.Class,
  'data sheet': SymbolKind.Struct,
  'serial number': SymbolKind.Constant,
};

/**
 * Wells, data sheets and serial numbers of the workspace whose name has the letters asked for, in their order; first the
 * names that hold them without a gap.
 */
export async function workspaceSymbols(
  workspace: Workspace,
  query: string,
  token: CancellationToken,
): Promise<WorkspaceSymbol[]> {
  await workspace.closed.hurry(Date.now);
  stopIfCancelled(token);
  const near: WorkspaceSymbol[] = [];
  const far: WorkspaceSymbol[] = [];
  for (const [path, names] of allNames(workspace)) {
    for (const each of names.filter(({ name }) => hasLetters(name, query))) {
      const symbols = each.name.toLowerCase().includes(query.toLowerCase()) ? near : far;
      if (symbols.length < MOST) symbols.push(symbolOf(each, workspace.open.uriOf(path)));
    }
    if (near.length === MOST) break;
  }
  return [...near, ...far].slice(0, MOST);
}

/** What editors hold as it stands there, the rest as it was last looked at. */
function* allNames(workspace: Workspace): Generator<readonly [string, readonly NamedPlace[]]> {
  const closed = workspace.closed.listed();
  const isListed = new Set(closed.map(({ path }) => path));
  for (const path of workspace.repository.paths()) {
    const document = isListed.has(path) ? undefined : workspace.document(path);
    if (document !== undefined) yield [path, namedPlaces(document)];
  }
  for (const { path, names } of closed) yield [path, names];
}

function symbolOf({ name, what, within, range }: NamedPlace, uri: string): WorkspaceSymbol {
  const containerName = visible(`${what}${within && `, ${within}`}`);
  return { name: visible(name), kind: KINDS[what], containerName, location: { uri, range } };
}

/** Whether a name has the letters of a query in their order; case and what stands between do not count. */
function hasLetters(name: string, query: string): boolean {
  const letters = [...query.toLowerCase()].filter((letter) => letter.trim() !== '');
  let at = -1;
  return letters.every((letter) => {
    at = name.toLowerCase().indexOf(letter, at + 1);
    return at >= 0;
  });
}
