import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateWith } from '../common/extension.ts';
import { offerComparison } from './comparison.ts';

/** On a desktop or a remote machine the server is a process of its own, and git may be at hand. */
export async function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/language-server.js');
  const server = { module, transport: TransportKind.ipc };
  const parts = await activateWith(context, (options) => new LanguageClient('setproof', 'Setproof', server, options));
  await offerComparison(context, parts);
}
