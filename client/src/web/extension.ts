import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { activateWith } from '../common/extension.ts';

/** In a browser the server is a worker. */
export async function activate(context: ExtensionContext): Promise<void> {
  const program = Uri.joinPath(context.extensionUri, 'dist', 'language-worker.js').toString(true);
  await activateWith(context, (options) => new LanguageClient('setproof', 'Setproof', new Worker(program), options));
}
