import {
  type CancellationToken,
  type CodeActionParams,
  type Connection,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  type InitializeParams,
  type InitializeResult,
  type Position,
  RAL,
  type TextDocumentIdentifier,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { type CheckedFile, type Document, POLICY_FILE } from '../engine/index.ts';
import { CODE_ACTION_KINDS, codeActions } from './code-actions.ts';
import { completionAt } from './completion.ts';
import { definitionAt } from './definition.ts';
import { documentLinks } from './document-links.ts';
import type { LanguageHost } from './files.ts';
import { foldingRanges } from './folding.ts';
import { hoverAt } from './hover.ts';
import type { ClientOptions } from './protocol.ts';
import { Publisher } from './publisher.ts';
import { referencesAt } from './references.ts';
import { type Subject, subjectAt } from './subject.ts';
import { documentSymbols } from './symbols.ts';
import { toPath } from './uris.ts';
import { Workspace } from './workspace.ts';

/** Work that no author waits for begins when nothing was typed for so long, ms. */
const IDLE = 150;

declare const SETPROOF_VERSION: string;

/** Makes what is around the server, once the client has said what it can do. */
export type MakeHost = (options: ClientOptions) => LanguageHost;

/** Serves one client until it says goodbye. */
export function createServer(connection: Connection, makeHost: MakeHost): void {
  connection.onInitialize((params) => {
    const server = new Server(connection, makeHost(optionsOf(params)), params);
    server.listen();
    return server.capabilities();
  });
  connection.onShutdown(() => undefined);
}

class Server {
  readonly #connection: Connection;
  readonly #workspace: Workspace;
  readonly #publisher: Publisher;
  readonly #names: { uriOf: (path: string) => string; checkPages: string | undefined; related: boolean };
  readonly #params: InitializeParams;
  #announced = 0;
  #idle: { dispose(): void } | undefined;

  constructor(connection: Connection, host: LanguageHost, params: InitializeParams) {
    const { capabilities } = params;
    this.#connection = connection;
    this.#params = params;
    this.#workspace = new Workspace(host);
    this.#workspace.openFolders(foldersOf(params));
    this.#names = {
      uriOf: (path) => this.#workspace.open.uriOf(path),
      checkPages: optionsOf(params).checkPages ?? host.checkPages,
      related: capabilities.textDocument?.publishDiagnostics?.relatedInformation ?? pulls(params),
    };
    this.#publisher = new Publisher(connection, this.#workspace, {
      pulled: pulls(params),
      refreshes: capabilities.workspace?.diagnostics?.refreshSupport ?? false,
      names: this.#names,
    });
  }

  capabilities(): InitializeResult {
    return {
      serverInfo: { name: 'setproof', version: SETPROOF_VERSION },
      capabilities: {
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        diagnosticProvider: { identifier: 'setproof', interFileDependencies: true, workspaceDiagnostics: true },
        hoverProvider: true,
        completionProvider: { triggerCharacters: [' ', ':', '{', ',', '/', '.'] },
        codeActionProvider: { codeActionKinds: CODE_ACTION_KINDS },
        definitionProvider: true,
        referencesProvider: true,
        documentLinkProvider: {},
        documentSymbolProvider: true,
        foldingRangeProvider: true,
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
      },
    };
  }

  listen(): void {
    this.#listenToDocuments();
    this.#listenToWorkspace();
    this.#answerDiagnostics();
    this.#answerAtPlaces();
    this.#answerOnDocuments();
  }

  #listenToDocuments(): void {
    const { open } = this.#workspace;
    this.#connection.onDidOpenTextDocument(({ textDocument }) => {
      const { path } = open.open(textDocument);
      this.#workspace.askAgain(path);
      this.#changed(path);
    });
    this.#connection.onDidChangeTextDocument(({ textDocument, contentChanges }) => {
      const document = open.change(textDocument.uri, textDocument.version, contentChanges);
      if (document !== undefined) this.#changed(document.path);
    });
    this.#connection.onDidCloseTextDocument(({ textDocument }) => {
      const document = open.close(textDocument.uri);
      if (document === undefined) return;
      this.#publisher.forget(document);
      this.#workspace.touch(document.path);
      this.#announce();
    });
  }

  #listenToWorkspace(): void {
    this.#connection.onInitialized(() => this.#begin());
    this.#connection.onDidChangeWatchedFiles(({ changes }) => {
      for (const { uri, type } of changes) this.#fileChanged(toPath(uri), type);
      this.#announce();
    });
    this.#connection.onNotification('workspace/didChangeWorkspaceFolders', ({ event }) => {
      const removed = new Set(event.removed.map(({ uri }: { uri: string }) => toPath(uri)));
      const kept = this.#workspace.folders.filter((each) => !removed.has(each));
      this.#workspace.openFolders([...kept, ...event.added.map(({ uri }: { uri: string }) => folderPath(uri))]);
      this.#workspace.rootsMoved();
      void this.#findClosed();
    });
  }

  #fileChanged(path: string, type: FileChangeType): void {
    this.#workspace.touch(path);
    if (type !== FileChangeType.Changed && path.endsWith(`/${POLICY_FILE}`)) this.#workspace.rootsMoved();
  }

  #begin(): void {
    if (this.#params.capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration) {
      const watchers = [{ globPattern: '**/*.{yaml,yml}' }];
      void this.#connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
    }
    void this.#findClosed();
  }

  async #findClosed(): Promise<void> {
    await this.#pause();
    await this.#workspace.closed.find();
    this.#scheduleIdle();
  }

  #changed(path: string): void {
    this.#workspace.touch(path);
    this.#publisher.owe(path);
    this.#announce();
  }

  /**
   * Takes changes in once the messages that are here already are read: a burst of keys costs one check, and a single key
   * none of the author's time. The queue hands out one message a turn, so whoever is not the last has a successor.
   */
  #announce(): void {
    const own = ++this.#announced;
    const { timer } = RAL();
    timer.setImmediate(() => {
      timer.setImmediate(() => {
        if (own === this.#announced) void this.#settleAndPublish();
      });
    });
  }

  async #settleAndPublish(): Promise<void> {
    await this.#workspace.settle();
    // Whatever came meanwhile has an announcement of its own; its results will be newer.
    if (this.#workspace.isSettled) this.#publisher.publishOpen();
    this.#scheduleIdle();
  }

  #scheduleIdle(): void {
    this.#idle?.dispose();
    if (!this.#workspace.closed.hasWork) return;
    this.#idle = RAL().timer.setTimeout(() => void this.#workIdly(), IDLE);
  }

  async #workIdly(): Promise<void> {
    const begun = this.#announced;
    const news = new Set<string>();
    while (this.#workspace.closed.hasWork && begun === this.#announced) {
      for (const path of await this.#workspace.closed.workSlice(Date.now)) news.add(path);
      await this.#pause();
    }
    await this.#workspace.settle();
    // What is open is compared with what was found.
    this.#publisher.publishOpen();
    if (news.size > 0) this.#publisher.publishClosed([...news]);
    this.#scheduleIdle();
  }

  #pause(): Promise<void> {
    return new Promise((resolve) => RAL().timer.setImmediate(resolve));
  }

  #answerDiagnostics(): void {
    this.#connection.languages.diagnostics.on(async ({ textDocument, previousResultId }) => {
      await this.#workspace.settle();
      return this.#publisher.report(toPath(textDocument.uri), previousResultId);
    });
    this.#connection.languages.diagnostics.onWorkspace(async ({ previousResultIds }, token) => {
      await this.#workspace.settle();
      const previous = new Map(previousResultIds.map(({ uri, value }) => [uri, value]));
      return { items: this.#publisher.reportClosed(previous, token) };
    });
  }

  #answerAtPlaces(): void {
    this.#connection.onHover(this.#at(hoverAt));
    this.#connection.onDefinition(this.#at(definitionAt));
    this.#connection.onReferences(this.#at(referencesAt));
    this.#connection.onCompletion(async ({ textDocument, position }, token) => {
      const file = await this.#anyFile(textDocument, token);
      const offset = file && offsetIn(file.document, position);
      return file === undefined || offset === undefined ? null : completionAt(this.#workspace, file, offset);
    });
  }

  #answerOnDocuments(): void {
    this.#connection.onDocumentSymbol(this.#on(({ document }) => documentSymbols(document)));
    this.#connection.onFoldingRanges(this.#on(({ document }) => foldingRanges(document)));
    this.#connection.onDocumentLinks(this.#on(({ document }) => documentLinks(this.#workspace, document.path)));
    this.#connection.onCodeAction(async (params, token) => {
      const file = await this.#file(params.textDocument, token);
      return file === undefined ? null : codeActions(this.#workspace, file, requestOf(params), this.#names);
    });
  }

  /** A request about a place in a document; null where there is nothing of ours. */
  #at<T>(answer: (subject: Subject) => T | Promise<T>) {
    type Params = { textDocument: TextDocumentIdentifier; position: Position };
    return async ({ textDocument, position }: Params, token: CancellationToken): Promise<T | null> => {
      await this.#workspace.settle();
      if (token.isCancellationRequested) return null;
      const subject = subjectAt(this.#workspace, toPath(textDocument.uri), position);
      return subject === undefined ? null : answer(subject);
    };
  }

  #on<T>(answer: (file: CheckedFile) => T) {
    return async ({ textDocument }: { textDocument: TextDocumentIdentifier }, token: CancellationToken) => {
      const file = await this.#file(textDocument, token);
      return file === undefined ? null : answer(file);
    };
  }

  async #file(document: TextDocumentIdentifier, token: CancellationToken): Promise<CheckedFile | undefined> {
    const file = await this.#anyFile(document, token);
    return file?.document.ours ? file : undefined;
  }

  async #anyFile({ uri }: TextDocumentIdentifier, token: CancellationToken): Promise<CheckedFile | undefined> {
    await this.#workspace.settle();
    return token.isCancellationRequested ? undefined : this.#workspace.repository.check(toPath(uri));
  }
}

function pulls({ capabilities }: InitializeParams): boolean {
  return capabilities.textDocument?.diagnostic !== undefined;
}

function optionsOf({ initializationOptions }: InitializeParams): ClientOptions {
  return typeof initializationOptions === 'object' && initializationOptions !== null ? initializationOptions : {};
}

function foldersOf({ workspaceFolders, rootUri, rootPath }: InitializeParams): readonly string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => folderPath(uri));
  if (rootUri) return [folderPath(rootUri)];
  return rootPath ? [rootPath.replaceAll('\\', '/').replace(/\/$/, '')] : [];
}

function folderPath(uri: string): string {
  return toPath(uri).replace(/(.)\/$/, '$1');
}

function requestOf({ range, context }: CodeActionParams) {
  return { range, only: context.only, diagnostics: context.diagnostics };
}

function offsetIn({ source }: Document, { line, character }: Position): number | undefined {
  return line >= 0 && line < source.lineStarts.length && character >= 0
    ? source.offsetAt({ line, character })
    : undefined;
}
