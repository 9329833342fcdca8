import type { CodeActionParams, Position, RenameParams } from 'vscode-languageserver';
import type { Document } from '../engine/index.ts';
import { codeActions } from './code-actions.ts';
import { codeLenses } from './code-lens.ts';
import { completionAt } from './completion.ts';
import { definitionAt } from './definition.ts';
import { documentLinks } from './document-links.ts';
import { foldingRanges } from './folding.ts';
import { hoverAt } from './hover.ts';
import { inlayHints } from './inlay-hints.ts';
import { editsBeforeMove } from './moves.ts';
import { referencesAt } from './references.ts';
import { prepareRename, renameAt } from './rename.ts';
import { selectionRanges } from './selection-ranges.ts';
import type { Session } from './session.ts';
import { documentSymbols } from './symbols.ts';
import { toPath } from './uris.ts';
import { workspaceSymbols } from './workspace-symbols.ts';

export function answerDiagnostics(session: Session): void {
  const { connection, publisher } = session;
  connection.languages.diagnostics.on(async ({ textDocument, previousResultId }, token) => {
    await session.settled(token);
    return publisher.report(toPath(textDocument.uri), previousResultId);
  });
  connection.languages.diagnostics.onWorkspace(async ({ previousResultIds }, token) => {
    await session.settled(token);
    const previous = new Map(previousResultIds.map(({ uri, value }) => [uri, value]));
    return { items: publisher.reportClosed(previous, token) };
  });
}

export function answerAtPlaces(session: Session): void {
  const { connection, workspace, client } = session;
  connection.onPrepareRename(session.at(prepareRename));
  connection.onRenameRequest(session.at((subject, { newName }: RenameParams) => renameAt(subject, newName, client)));
  connection.onHover(session.at(hoverAt));
  connection.onDefinition(session.at(definitionAt));
  connection.onReferences(session.at(referencesAt));
  connection.onCompletion(async ({ textDocument, position }, token) => {
    const file = await session.file(textDocument, token);
    const offset = file && offsetIn(file.document, position);
    return file === undefined || offset === undefined
      ? null
      : completionAt(workspace, file, offset, client.takesSnippets);
  });
}

export function answerOnDocuments(session: Session): void {
  const { connection, workspace, names, client } = session;
  connection.onDocumentSymbol(session.on(({ document }) => documentSymbols(document)));
  connection.onFoldingRanges(session.on(({ document }) => foldingRanges(document)));
  connection.onDocumentLinks(session.on(({ document }) => documentLinks(workspace, document.path)));
  connection.onSelectionRanges(session.on(({ document }, { positions }) => selectionRanges(document, positions)));
  connection.languages.inlayHint.on(session.on((file, { range }) => inlayHints(file, range)));
  connection.onCodeLens(session.on((file, { textDocument }) => codeLenses(file, client, textDocument.uri)));
  connection.onCodeAction(session.on((file, params) => codeActions(workspace, file, requestOf(params), names)));
}

export function answerOnWorkspace({ connection, workspace }: Session): void {
  connection.onWorkspaceSymbol(({ query }, token) => workspaceSymbols(workspace, query, token));
  connection.workspace.onWillRenameFiles(({ files }, token) => editsBeforeMove(workspace, files, token));
}

function requestOf({ range, context }: CodeActionParams) {
  return { range, only: context.only, diagnostics: context.diagnostics };
}

function offsetIn({ source }: Document, { line, character }: Position): number | undefined {
  return line >= 0 && line < source.lineStarts.length && character >= 0
    ? source.offsetAt({ line, character })
    : undefined;
}
