import {
  type CancellationToken,
  type Connection,
  type InitializeParams,
  LSPErrorCodes,
  type Position,
  ResponseError,
  type TextDocumentIdentifier,
} from 'vscode-languageserver';
import type { CheckedFile } from '../engine/index.ts';
import { type Client, clientOf } from './client.ts';
import type { DiagnosticNames } from './diagnostics.ts';
import type { LanguageHost } from './files.ts';
import type { ClientOptions } from './protocol.ts';
import { Publisher } from './publisher.ts';
import { type Subject, subjectAt } from './subject.ts';
import { toPath } from './uris.ts';
import { Workspace } from './workspace.ts';

/** Makes what is around the server, once the client has said what it can do. */
export type MakeHost = (options: ClientOptions) => LanguageHost;

/** What the answers to one client share: its documents, its abilities, and how a request finds what it is about. */
export class Session {
  readonly connection: Connection;
  readonly client: Client;
  readonly workspace: Workspace;
  readonly publisher: Publisher;
  readonly names: DiagnosticNames;

  constructor(connection: Connection, makeHost: MakeHost, params: InitializeParams) {
    this.connection = connection;
    this.client = clientOf(params);
    const host = makeHost(this.client.options);
    this.workspace = new Workspace(host);
    this.workspace.openFolders(foldersOf(params));
    this.names = {
      uriOf: (path) => this.workspace.open.uriOf(path),
      checkPages: this.client.options.checkPages ?? host.checkPages,
      related: this.client.showsRelated,
    };
    this.publisher = new Publisher(connection, this.workspace, this.client, this.names);
  }

  /** A request about a place in a document; null where there is nothing of ours. */
  at<T, P extends { textDocument: TextDocumentIdentifier; position: Position }>(
    answer: (subject: Subject, params: P) => T | Promise<T>,
  ) {
    return async (params: P, token: CancellationToken): Promise<T | null> => {
      await this.settled(token);
      const subject = subjectAt(this.workspace, toPath(params.textDocument.uri), params.position);
      return subject === undefined ? null : answer(subject, params);
    };
  }

  /** A request about a whole document; null for one that is not ours. */
  on<T, P extends { textDocument: TextDocumentIdentifier }>(answer: (file: CheckedFile, params: P) => T | Promise<T>) {
    return async (params: P, token: CancellationToken): Promise<T | null> => {
      const file = await this.file(params.textDocument, token);
      return file?.document.ours ? answer(file, params) : null;
    };
  }

  /** A document as it stands when all changes are taken in; undefined for one that is not known. */
  async file({ uri }: TextDocumentIdentifier, token: CancellationToken): Promise<CheckedFile | undefined> {
    await this.settled(token);
    return this.workspace.repository.check(toPath(uri));
  }

  /**
   * Waits until all changes are taken in.
   * @throws ResponseError if the client has lost interest meanwhile
   */
  async settled(token: CancellationToken): Promise<void> {
    await this.workspace.settle();
    stopIfCancelled(token);
  }
}

/** @throws ResponseError that the protocol wants as the answer to a request that was withdrawn */
export function stopIfCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested)
    throw new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was withdrawn.');
}

function foldersOf({ workspaceFolders, rootUri, rootPath }: InitializeParams): readonly string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => folderPath(uri));
  if (rootUri) return [folderPath(rootUri)];
  return rootPath ? [rootPath.replaceAll('\\', '/').replace(/\/$/, '')] : [];
}

/** Path of a folder by its URI, without the slash that may end it. */
export function folderPath(uri: string): string {
  return toPath(uri).replace(/(.)\/$/, '$1');
}
