import { type Document, type DocumentKind, isInside } from '../engine/index.ts';
import { type Lift, liftOf } from './lift.ts';
import { namedPlaces } from './named-places.ts';
import type { Workspace } from './workspace.ts';

/** Paths of the documents of a kind that another one may refer to, open or not. */
export function pathsOfKind({ repository, closed }: Workspace, from: Document, kind: DocumentKind): readonly string[] {
  const known = repository.paths().filter((path) => repository.document(path)?.kind === kind);
  const others = closed
    .listed()
    .filter((each) => each.kind === kind)
    .map(({ path }) => path);
  const root = repository.rootOf(from.path);
  return [...new Set([...known, ...others])].filter((path) => path !== from.path && isInside(path, root)).sort();
}

/** Whether a data sheet is not of the other lift than an installation; one that does not tell may be of either. */
export function isOfLift({ repository, closed }: Workspace, path: string, lift: Lift | undefined): boolean {
  const document = repository.document(path);
  const own = document === undefined ? closed.listed().find((each) => each.path === path)?.lift : liftOf(document);
  return lift === undefined || own === undefined || own === lift;
}

/** The name that a document gives what it describes; undefined if it gives none. */
export function nameOf({ repository, closed }: Workspace, path: string): string | undefined {
  const document = repository.document(path);
  const names =
    document === undefined ? closed.listed().find((each) => each.path === path)?.names : namedPlaces(document);
  return names?.[0]?.name;
}
