import { compareText, type Document, type Repository } from '../engine/index.ts';
import type { FoundFile } from '../host/node/find.ts';
import { mayBeDocument } from '../host/node/walk.ts';

export interface Chosen {
  /** Paths of the documents to check, sorted. */
  readonly documents: readonly string[];
  /** Files that were named and are no documents of ours. */
  readonly strangers: readonly string[];
  /** How many files a walk came upon that are not ours. */
  readonly ignored: number;
}

/** Which of the files are documents of ours. Of one that was named more is expected than of one that a walk came upon. */
export function chooseDocuments(files: readonly FoundFile[], repository: Repository): Chosen {
  const documents: string[] = [];
  const strangers: string[] = [];
  let ignored = 0;
  for (const { path, named } of files) {
    const document = repository.document(path);
    if (document === undefined) continue;
    if (document.ours || (named && isBroken(document))) documents.push(path);
    else if (named) strangers.push(path);
    else ignored++;
  }
  return { documents: documents.sort(compareText), strangers, ignored };
}

const UNREADABLE = new Set(['document.not-text', 'document.too-large']);

/** A named file that cannot be read is not called someone else's: what stands in it cannot be told. */
function isBroken({ path, problems }: Document): boolean {
  return problems.some(({ check }) => UNREADABLE.has(check)) || (problems.length > 0 && mayBeDocument(path));
}
