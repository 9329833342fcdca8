import type { Location } from 'vscode-languageserver';
import { type Document, type Range, referencesOf } from '../engine/index.ts';
import { referenceAt } from './definition.ts';
import type { Subject } from './subject.ts';
import type { Workspace } from './workspace.ts';

/** Who uses a data sheet: asked on a `datasheet`, all that name the same; asked in a sheet itself, its own users. */
export async function referencesAt(subject: Subject): Promise<Location[]> {
  const { workspace, document } = subject;
  const path = referenceAt(subject)?.path ?? document.path;
  const users = await Promise.all(workspace.usersOf(path).map((user) => rangesIn(workspace, user, path)));
  return users.flat();
}

async function rangesIn(workspace: Workspace, user: string, path: string): Promise<Location[]> {
  const uri = workspace.open.uriOf(user);
  const document = await workspace.documentNow(user);
  const ranges = document === undefined ? [] : rangesOf(document, path);
  return ranges.map((range) => ({ uri, range }));
}

function rangesOf(document: Document, path: string): Range[] {
  return referencesOf(document)
    .filter((each) => each.path === path)
    .map((each) => document.source.rangeOf(document.tree.span(each.node)));
}
