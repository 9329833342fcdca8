import {
  type FileOperationRegistrationOptions,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import type { Client } from './client.ts';
import { CODE_ACTION_KINDS } from './code-actions.ts';

/** A folder may hold documents. */
const MOVED: FileOperationRegistrationOptions = {
  filters: [
    { pattern: { glob: '**/*.{yaml,yml}', matches: 'file' } },
    { pattern: { glob: '**/*', matches: 'folder' } },
  ],
};

/** All that the server can do for this client, said at the beginning. */
export function capabilitiesFor(client: Client): ServerCapabilities {
  return {
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    diagnosticProvider: { identifier: 'setproof', interFileDependencies: true, workspaceDiagnostics: true },
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', ':', '{', ',', '/', '.'] },
    codeActionProvider: { codeActionKinds: CODE_ACTION_KINDS },
    // A lens that nothing answers would be dead text.
    ...(client.commands.size > 0 && { codeLensProvider: { resolveProvider: false } }),
    inlayHintProvider: true,
    definitionProvider: true,
    referencesProvider: true,
    renameProvider: { prepareProvider: true },
    documentLinkProvider: {},
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: MOVED },
    },
  };
}
