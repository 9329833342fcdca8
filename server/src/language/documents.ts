import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { toPath, toUri } from './uris.ts';

/** A document that an editor holds: its text wins over what is on disk. */
export interface OpenDocument {
  readonly path: string;
  readonly uri: string;
  readonly text: TextDocument;
}

/** The documents that the client has open. */
export class OpenDocuments {
  readonly #byPath = new Map<string, OpenDocument>();

  open(item: { uri: string; languageId: string; version: number; text: string }): OpenDocument {
    const text = TextDocument.create(item.uri, item.languageId, item.version, item.text);
    const document = { path: toPath(item.uri), uri: item.uri, text };
    this.#byPath.set(document.path, document);
    return document;
  }

  /** @returns undefined for a document that was never opened */
  change(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): OpenDocument | undefined {
    const document = this.get(toPath(uri));
    if (document !== undefined) TextDocument.update(document.text, changes.map(bounded), version);
    return document;
  }

  close(uri: string): OpenDocument | undefined {
    const document = this.get(toPath(uri));
    if (document !== undefined) this.#byPath.delete(document.path);
    return document;
  }

  get(path: string): OpenDocument | undefined {
    return this.#byPath.get(path);
  }

  all(): IterableIterator<OpenDocument> {
    return this.#byPath.values();
  }

  /** The URI that the client uses for a path, if it told one. */
  uriOf(path: string): string {
    return this.#byPath.get(path)?.uri ?? toUri(path);
  }
}

/** The library bounds positions from above only. */
function bounded(change: TextDocumentContentChangeEvent): TextDocumentContentChangeEvent {
  if (!('range' in change)) return change;
  const { start, end } = change.range;
  return { text: change.text, range: { start: notNegative(start), end: notNegative(end) } };
}

function notNegative({ line, character }: { line: number; character: number }) {
  return { line: Math.max(0, line), character: Math.max(0, character) };
}
