import type { Location } from 'vscode-languageserver';
import type { Reference } from '../engine/index.ts';
import type { Subject } from './subject.ts';

const START = { line: 0, character: 0 };

/** From a `datasheet` to its file; null where the file is not known to be there. */
export function definitionAt(subject: Subject): Location | null {
  const reference = referenceAt(subject);
  if (reference === undefined) return null;
  const { workspace } = subject;
  if (workspace.repository.known(reference.path)?.state !== 'read') return null;
  return { uri: workspace.open.uriOf(reference.path), range: { start: START, end: START } };
}

/** The reference at a place: on its value, its key, or the entry that it stands behind. */
export function referenceAt({ workspace, document, node }: Subject): Reference | undefined {
  const known = workspace.repository.known(document.path);
  if (known?.state !== 'read') return undefined;
  return known.references.find((each) => each.node === node || each.entry === node);
}
