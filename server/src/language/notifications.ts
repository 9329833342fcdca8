import { DidChangeWatchedFilesNotification, FileChangeType } from 'vscode-languageserver';
import { POLICY_FILE } from '../engine/index.ts';
import { folderPath, type Session } from './session.ts';
import type { Upkeep } from './upkeep.ts';
import { toPath } from './uris.ts';

/** Follows what is opened, typed and closed. */
export function followDocuments({ connection, workspace, publisher }: Session, upkeep: Upkeep): void {
  const { open } = workspace;
  connection.onDidOpenTextDocument(({ textDocument }) => {
    const { path } = open.open(textDocument);
    workspace.askAgain(path);
    upkeep.changed(path);
  });
  connection.onDidChangeTextDocument(({ textDocument, contentChanges }) => {
    const document = open.change(textDocument.uri, textDocument.version, contentChanges);
    if (document !== undefined) upkeep.changed(document.path);
  });
  connection.onDidCloseTextDocument(({ textDocument }) => {
    const document = open.close(textDocument.uri);
    if (document === undefined) return;
    publisher.forget(document);
    workspace.touch(document.path);
    upkeep.announce();
  });
}

/** Follows files and folders of the workspace. */
export function followFiles({ connection, client, workspace }: Session, upkeep: Upkeep): void {
  connection.onInitialized(() => {
    if (client.watchesFiles) {
      const watchers = [{ globPattern: '**/*.{yaml,yml}' }];
      // A client that will not watch after all is served with what is opened and typed.
      connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).catch(() => undefined);
    }
    void upkeep.findClosed();
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri, type } of changes) {
      const path = toPath(uri);
      workspace.touch(path);
      if (type !== FileChangeType.Changed && path.endsWith(`/${POLICY_FILE}`)) workspace.rootsMoved();
    }
    upkeep.announce();
  });
  connection.onNotification('workspace/didChangeWorkspaceFolders', ({ event }) => {
    const removed = new Set(event.removed.map(({ uri }: { uri: string }) => folderPath(uri)));
    const kept = workspace.folders.filter((each) => !removed.has(each));
    workspace.openFolders([...kept, ...event.added.map(({ uri }: { uri: string }) => folderPath(uri))]);
    workspace.rootsMoved();
    void upkeep.findClosed();
  });
}
