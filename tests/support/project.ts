import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Change, type CheckedFile, NONE, Repository } from '../../server/src/engine/index.ts';

export const ROOT = join(import.meta.dirname, '../..');
export const SAMPLES = join(ROOT, 'samples');
export const TODAY = '2026-06-01';

/** New texts of entries by dotted key. */
export type Edits = Readonly<Record<string, string>>;

/** A document of the samples with everything it refers to. */
export function openProject(path: string, root = SAMPLES): Repository {
  let repository = Repository.empty({ root, today: TODAY }).update([readChange(path)]);
  for (let wanted = repository.wanted(); wanted.length > 0; wanted = repository.wanted()) {
    repository = repository.update(wanted.map(readChange));
  }
  return repository;
}

/** The same with entries of one of its documents changed. */
export function edited(repository: Repository, path: string, edits: Edits): Repository {
  const document = repository.document(path);
  if (document === undefined) throw new Error(`there is no ${path}`);
  const places = Object.entries(edits).map(([key, newText]) => {
    const node = document.tree.find(key);
    if (node === NONE) throw new Error(`${path} has no ${key}`);
    return { ...document.tree.span(node), newText };
  });
  places.sort((a, b) => b.start - a.start);
  let { text } = document.source;
  for (const { start, end, newText } of places) text = text.slice(0, start) + newText + text.slice(end);
  return repository.update([{ path, text }]);
}

export function checked(repository: Repository, path: string): CheckedFile {
  const file = repository.check(path);
  if (file === undefined) throw new Error(`there is no ${path}`);
  return file;
}

function readChange(path: string): Change {
  try {
    return { path, text: readFileSync(path, 'utf8') };
  } catch {
    return { path, absent: true };
  }
}
