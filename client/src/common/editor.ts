import { Position, Range, Uri, ViewColumn, window, workspace } from 'vscode';
import type { Place } from '../../../server/src/language/views/protocol.ts';

/** Shows a place in an editor: in the one that has the document already, else in the first column. */
export async function reveal({ uri, start, end }: Place): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(uri));
  const shown = window.visibleTextEditors.find((each) => each.document.uri.toString() === document.uri.toString());
  const selection = new Range(
    new Position(start.line, start.character || indentOf(document.lineAt(start.line).text)),
    new Position(end.line, end.character || indentOf(document.lineAt(end.line).text)),
  );
  await window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? ViewColumn.One, selection });
}

function indentOf(line: string): number {
  return /^\s*(?:- )?/.exec(line)?.[0].length ?? 0;
}
