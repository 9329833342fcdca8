import { type QuickPickItem, type Uri, window, workspace } from 'vscode';
import { type NotRun, SUMMARY, type SummaryResult } from '../../../server/src/language/views/protocol.ts';
import { reveal } from './editor.ts';
import type { Session } from './session.ts';

interface Item extends QuickPickItem {
  readonly notRun: NotRun;
}

/** Lists the checks that were not run, with what each lacks; the one that is chosen leads to where that should be. */
export async function showNotRun(session: Session, uri: Uri): Promise<void> {
  await workspace.openTextDocument(uri);
  const params = { textDocument: { uri: uri.toString() } };
  const summary = await session.ask<SummaryResult>(SUMMARY, params);
  const file = workspace.asRelativePath(uri);
  if (summary === undefined) {
    await window.showInformationMessage(`${file} is no document that Setproof checks, so nothing was run on it.`);
  } else if (summary.notRun.length === 0) {
    await window.showInformationMessage(`Every check that concerns ${file} was run.`);
  } else await choose(summary.notRun, file);
}

async function choose(notRun: readonly NotRun[], file: string): Promise<void> {
  const items = notRun.map(toItem);
  const chosen = await window.showQuickPick(items, {
    title: notRun.length === 1 ? `1 check not run: ${file}` : `${notRun.length} checks not run: ${file}`,
    placeHolder: 'Choose one to go to where the missing entry should be',
    matchOnDescription: true,
    matchOnDetail: true,
  });
  if (chosen !== undefined) await reveal(chosen.notRun.place);
}

function toItem(notRun: NotRun): Item {
  const { check, title, missing } = notRun;
  return { label: title, description: check, detail: `lacks ${missing.join(', ')}`, notRun };
}
