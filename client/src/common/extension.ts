import { commands, type ExtensionContext, type LogOutputChannel, Uri, window, workspace } from 'vscode';
import {
  type BaseLanguageClient,
  type DocumentSelector,
  type LanguageClientOptions,
  RevealOutputChannelOn,
} from 'vscode-languageclient';
import type { ClientOptions } from '../../../server/src/language/protocol.ts';
import { serveFiles } from './files.ts';
import { hasAnythingOfOurs, isOurs } from './ours.ts';

/** Makes a client whose server runs as the host allows: as a process, or as a worker. */
export type MakeClient = (options: LanguageClientOptions) => BaseLanguageClient;

/** Offers the commands at once, and starts the server when there is something of ours, now or later. */
export async function activateWith(context: ExtensionContext, makeClient: MakeClient): Promise<void> {
  const output = window.createOutputChannel('Setproof', { log: true });
  const checkPages = await pagesOfChecks(context.extensionUri);
  const session = new Session(() => makeClient(clientOptions(output, checkPages)));
  context.subscriptions.push(
    output,
    session,
    commands.registerCommand('setproof.restartServer', () => session.restart()),
    workspace.onDidOpenTextDocument((document) => (isOurs(document) ? session.start() : undefined)),
    workspace.onDidChangeTextDocument(({ document }) => (isOurs(document) ? session.start() : undefined)),
  );
  if (await hasAnythingOfOurs()) await session.start();
}

/** The one client of this window, and whether it runs. */
class Session {
  readonly #make: () => BaseLanguageClient;
  #client: BaseLanguageClient | undefined;

  constructor(make: () => BaseLanguageClient) {
    this.#make = make;
  }

  async start(): Promise<void> {
    if (this.#client !== undefined) return;
    this.#client = this.#make();
    serveFiles(this.#client);
    await this.#client.start();
  }

  /** Also brings back a server that the client gave up on. */
  async restart(): Promise<void> {
    await this.#stop();
    await this.start();
  }

  dispose(): Promise<void> {
    return this.#stop();
  }

  async #stop(): Promise<void> {
    const client = this.#client;
    this.#client = undefined;
    // A server that is gone already cannot say goodbye, and need not.
    await client?.dispose().catch(() => undefined);
  }
}

/** Where the pages of the checks are installed; an extension under development may have none yet. */
async function pagesOfChecks(extension: Uri): Promise<string | undefined> {
  const folder = Uri.joinPath(extension, 'docs', 'checks');
  const isThere = await workspace.fs.stat(folder).then(
    () => true,
    () => false,
  );
  return isThere ? folder.toString() : undefined;
}

function clientOptions(outputChannel: LogOutputChannel, checkPages: string | undefined): LanguageClientOptions {
  const initializationOptions: ClientOptions = { servesFiles: true, ...(checkPages !== undefined && { checkPages }) };
  return {
    documentSelector: selector(),
    outputChannel,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    initializationOptions,
  };
}

/** YAML of the workspace and single files; not the old revisions that a comparison shows. */
function selector(): DocumentSelector {
  const folders = workspace.workspaceFolders ?? [];
  const schemes = new Set(['file', 'untitled', ...folders.map(({ uri }) => uri.scheme)]);
  return [...schemes].map((scheme) => ({ language: 'yaml', scheme }));
}
