import { commands, type ExtensionContext, type LogOutputChannel, Uri, window, workspace } from 'vscode';
import {
  type BaseLanguageClient,
  type DocumentSelector,
  type LanguageClientOptions,
  RevealOutputChannelOn,
} from 'vscode-languageclient';
import { type ClientOptions, LENS_COMMANDS } from '../../../server/src/language/protocol.ts';
import { ActiveDocument } from './active.ts';
import { Changes } from './changes.ts';
import { type Parts, registerCommands } from './commands.ts';
import { serveFiles } from './files.ts';
import { hasAnythingOfOurs, isOurs, isThere } from './ours.ts';
import { makePanels } from './panels.ts';
import { Session } from './session.ts';
import { Wells } from './wells.ts';

/** Makes a client whose server runs as the host allows: as a process, or as a worker. */
export type MakeClient = (options: LanguageClientOptions) => BaseLanguageClient;

/** Offers commands and views at once, and starts the server when there is something of ours, now or later. */
export async function activateWith(context: ExtensionContext, makeClient: MakeClient): Promise<Parts> {
  const output = window.createOutputChannel('Setproof', { log: true });
  const checkPages = await pagesOfChecks(context.extensionUri);
  const session = new Session(() => makeClient(clientOptions(output, checkPages)), output);
  session.serve(serveFiles);
  const changes = new Changes(session);
  const parts: Parts = {
    session,
    output,
    changes,
    panels: makePanels(context, session, changes),
    active: new ActiveDocument(session, changes),
    wells: new Wells(session, changes),
  };
  context.subscriptions.push(
    output,
    session,
    changes,
    parts.active,
    parts.wells,
    ...registerCommands(parts),
    parts.active.onDidOpenInstallation((well) => {
      for (const each of Object.values(parts.panels)) each.switchTo(well);
    }),
    session.onDidStart(() => commands.executeCommand('setContext', 'setproof.runs', true)),
    workspace.onDidOpenTextDocument((document) => (isOurs(document) ? session.start() : undefined)),
    workspace.onDidChangeTextDocument(({ document }) => (isOurs(document) ? session.start() : undefined)),
  );
  if (await hasAnythingOfOurs()) await session.start();
  return parts;
}

/** Where the pages of the checks are installed; an extension under development may have none yet. */
async function pagesOfChecks(extension: Uri): Promise<string | undefined> {
  const folder = Uri.joinPath(extension, 'docs', 'checks');
  return (await isThere(folder)) ? folder.toString() : undefined;
}

function clientOptions(outputChannel: LogOutputChannel, checkPages: string | undefined): LanguageClientOptions {
  const initializationOptions: ClientOptions = {
    servesFiles: true,
    commands: LENS_COMMANDS,
    ...(checkPages !== undefined && { checkPages }),
  };
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
