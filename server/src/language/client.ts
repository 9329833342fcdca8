import type { InitializeParams } from 'vscode-languageserver';
import type { ClientOptions } from './protocol.ts';

/** What the client can do, read once from what it said when it began. */
export interface Client {
  readonly options: ClientOptions;
  /** It asks for diagnostics and gets none unasked. */
  readonly pulls: boolean;
  /** It shows the places that a finding rests on. */
  readonly showsRelated: boolean;
  /** It can be told that what it asked for has changed. */
  readonly refreshes: { readonly diagnostics: boolean; readonly lenses: boolean; readonly hints: boolean };
  /** Texts of completion may have places to fill in. */
  readonly takesSnippets: boolean;
  /** An edit may move files. */
  readonly renamesFiles: boolean;
  readonly watchesFiles: boolean;
  readonly showsProgress: boolean;
  /** Commands of the client that a lens may call; without any there is no lens. */
  readonly commands: ReadonlySet<string>;
}

export function clientOf(params: InitializeParams): Client {
  const { workspace, textDocument, window } = params.capabilities;
  const options = optionsOf(params);
  const pulls = textDocument?.diagnostic !== undefined;
  return {
    options,
    pulls,
    showsRelated: textDocument?.publishDiagnostics?.relatedInformation ?? pulls,
    refreshes: {
      diagnostics: workspace?.diagnostics?.refreshSupport ?? false,
      lenses: workspace?.codeLens?.refreshSupport ?? false,
      hints: workspace?.inlayHint?.refreshSupport ?? false,
    },
    takesSnippets: textDocument?.completion?.completionItem?.snippetSupport ?? false,
    renamesFiles: renamesFiles(workspace?.workspaceEdit),
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration ?? false,
    showsProgress: window?.workDoneProgress ?? false,
    commands: new Set(textDocument?.codeLens === undefined ? [] : options.commands),
  };
}

type EditAbilities = NonNullable<InitializeParams['capabilities']['workspace']>['workspaceEdit'];

function renamesFiles(edits: EditAbilities): boolean {
  return (edits?.documentChanges ?? false) && (edits?.resourceOperations?.includes('rename') ?? false);
}

function optionsOf({ initializationOptions }: InitializeParams): ClientOptions {
  return typeof initializationOptions === 'object' && initializationOptions !== null ? initializationOptions : {};
}
