import * as vscode from 'vscode';
import { eventually } from './runner.ts';

export const WELL = 'wells/a2-07.yaml';
export const SECOND_WELL = 'wells/a2-08.yaml';
export const TRANSFORMER = 'equipment/tx.yaml';
const GOOD_TAP = '{ tap: 2, voltage: 900 V }';
const LOW_TAP = '{ tap: 1, voltage: 600 V }';

export function uriOf(file: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (folder === undefined) throw new Error('the window has no folder');
  return vscode.Uri.joinPath(folder.uri, file);
}

export async function show(file: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(uriOf(file));
  await vscode.window.showTextDocument(document, { preview: false });
  return document;
}

/** Closes an editor without saving: an open text that differs would win over what is on disk. */
export async function close(file: string): Promise<void> {
  await show(file);
  await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
}

/** Replaces a text in a document, as an author types it. */
export async function replace(document: vscode.TextDocument, before: string, after: string): Promise<void> {
  const at = document.getText().indexOf(before);
  if (at < 0) throw new Error(`${document.uri.path} has no '${before}'`);
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, new vscode.Range(document.positionAt(at), document.positionAt(at + before.length)), after);
  await vscode.workspace.applyEdit(edit);
}

export const takeLowTap = (document: vscode.TextDocument) => setTap(document, LOW_TAP);
export const takeGoodTap = (document: vscode.TextDocument) => setTap(document, GOOD_TAP);

/** Whatever tap is set: an editor in a browser saves by itself after a while, so what was reverted to may be either. */
function setTap(document: vscode.TextDocument, tap: string): Promise<void> {
  const [written = ''] = /\{ tap: \d, voltage: \d+ V \}/.exec(document.getText()) ?? [];
  return replace(document, written, tap);
}

export function codeOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === 'object' ? code.value : code);
}

export function findingsOf(file: string, check: string): vscode.Diagnostic[] {
  return vscode.languages.getDiagnostics(uriOf(file)).filter((each) => codeOf(each) === check);
}

export function finding(file: string, check: string): Promise<vscode.Diagnostic> {
  return eventually(`${check} in ${file}`, () => findingsOf(file, check)[0]);
}

export function noFinding(file: string, check: string): Promise<boolean> {
  return eventually(`the end of ${check} in ${file}`, () => findingsOf(file, check).length === 0 || undefined);
}

export async function hoverAt(document: vscode.TextDocument, part: string): Promise<string> {
  const position = document.positionAt(document.getText().indexOf(part) + part.length);
  const hovers = await asked<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, position);
  const contents = hovers.flatMap((each) => each.contents);
  return contents.map((each) => (typeof each === 'string' ? each : each.value)).join('\n');
}

/**
 * What the editor answers to a command. It calls a question off when the text changes or is saved meanwhile, and then a
 * person asks again.
 */
export function asked<T>(command: string, ...about: readonly unknown[]): Promise<T> {
  return eventually(command, async () => {
    try {
      return await vscode.commands.executeCommand<T>(command, ...about);
    } catch (error) {
      if (error instanceof Error && /cancell?ed/i.test(error.message)) return undefined;
      throw error;
    }
  });
}

/** Applies the quick fix whose title has these words; offers may come a moment after the finding. */
export async function applyFix(document: vscode.TextDocument, range: vscode.Range, words: string): Promise<void> {
  const edit = await eventually(`a fix with '${words}'`, async () => {
    const actions = await asked<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, range);
    return actions.find(({ title }) => title.includes(words))?.edit;
  });
  await vscode.workspace.applyEdit(edit);
}
