import { type Disposable, EventEmitter, languages, workspace } from 'vscode';
import type { Session } from './session.ts';

/** Tells that what the server says may be another: something was typed, saved, moved, or found in the background. */
export class Changes implements Disposable {
  readonly #emitter = new EventEmitter<void>();
  readonly #sources: readonly Disposable[];

  readonly onDidChange = this.#emitter.event;

  constructor(session: Session) {
    const tell = () => this.#emitter.fire();
    const files = workspace.createFileSystemWatcher('**/*.{yaml,yml}');
    this.#sources = [
      files,
      files.onDidChange(tell),
      files.onDidCreate(tell),
      files.onDidDelete(tell),
      workspace.onDidChangeTextDocument(({ document }) => (document.languageId === 'yaml' ? tell() : undefined)),
      workspace.onDidCloseTextDocument(({ languageId }) => (languageId === 'yaml' ? tell() : undefined)),
      languages.onDidChangeDiagnostics(tell),
      session.onDidStart(tell),
    ];
  }

  dispose(): void {
    for (const each of this.#sources) each.dispose();
    this.#emitter.dispose();
  }
}
