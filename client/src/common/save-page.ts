import { Uri, window, workspace } from 'vscode';
import { PAGE, type PageParams, type PageResult, type PanelName } from '../../../server/src/language/views/protocol.ts';
import type { Session } from './session.ts';

/** Saves the worksheet or the checklist as one HTML file, which any browser prints. */
export async function savePage(session: Session, panel: PanelName, well: Uri): Promise<void> {
  await workspace.openTextDocument(well);
  const paper = workspace.getConfiguration('setproof').get<'a4' | 'letter'>('print.paper', 'a4');
  const params: PageParams = { textDocument: { uri: well.toString() }, panel, paper };
  const page = await session.ask<PageResult>(PAGE, params);
  if (page === undefined) {
    await window.showErrorMessage(
      `There is no ${panel} of ${workspace.asRelativePath(well)}: it is no installation, or its values could not be worked out.`,
    );
    return;
  }
  const target = await window.showSaveDialog({
    defaultUri: Uri.joinPath(well, '..', `${page.name}.html`),
    filters: { 'Web page': ['html'] },
    title: panel === 'worksheet' ? 'Save the worksheet for print' : 'Save the checklist for print',
  });
  if (target === undefined) return;
  await workspace.fs.writeFile(target, new TextEncoder().encode(page.html));
  await window.showInformationMessage(`Saved ${workspace.asRelativePath(target)}. Open it in a browser to print it.`);
}
