import type { CheckedFile } from '../check-document.ts';
import type { Document } from '../format/document.ts';
import { compareEntries, type EntryChange, labelOfNode } from './entries.ts';

/** A data sheet behind an entry of an installation that says something else, or is another sheet. */
export interface SheetChange {
  /** The entry that it stands behind: `equipment.cable.main`. */
  readonly entry: string;
  readonly before: SheetSide;
  readonly after: SheetSide;
  readonly entries: readonly EntryChange[];
}

export interface SheetSide {
  readonly path: string;
  readonly name: string;
}

/** The data sheets behind the entries that both sides have, where what they say differs. */
export function compareSheets(before: CheckedFile, after: CheckedFile): readonly SheetChange[] {
  const old = sheetsOf(before);
  return [...sheetsOf(after)].flatMap(([entry, now]) => {
    const was = old.get(entry);
    if (was === undefined || was.source.text === now.source.text || was.kind !== now.kind) return [];
    const entries = compareEntries(was, now);
    return entries.length === 0 ? [] : [{ entry, before: sideOf(was), after: sideOf(now), entries }];
  });
}

function sheetsOf({ document, worked }: CheckedFile): ReadonlyMap<string, Document> {
  const sheets = worked?.evaluation.installation.sheets ?? [];
  return new Map([...sheets].map(([node, sheet]) => [labelOfNode(document, node), sheet]));
}

function sideOf({ path, tree }: Document): SheetSide {
  return { path, name: tree.scalar(tree.find('name')).trim() };
}
