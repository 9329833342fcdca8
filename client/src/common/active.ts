import {
  commands,
  type Disposable,
  EventEmitter,
  StatusBarAlignment,
  type StatusBarItem,
  type Uri,
  window,
} from 'vscode';
import { SHOW_NOT_RUN } from '../../../server/src/language/protocol.ts';
import { SUMMARY, type SummaryResult } from '../../../server/src/language/views/protocol.ts';
import type { Changes } from './changes.ts';
import { AfterPause } from './pause.ts';
import type { Session } from './session.ts';

const PAUSE = 150;

/** The document of ours that one works on: its counts in the status bar, and what menus ask of it. */
export class ActiveDocument implements Disposable {
  readonly #session: Session;
  readonly #item: StatusBarItem;
  readonly #look = new AfterPause(PAUSE, () => this.#update());
  readonly #opened = new EventEmitter<Uri>();
  readonly #parts: readonly Disposable[];
  #installation: Uri | undefined;

  /** An installation came to the front. */
  readonly onDidOpenInstallation = this.#opened.event;

  constructor(session: Session, changes: Changes) {
    this.#session = session;
    this.#item = window.createStatusBarItem('setproof.counts', StatusBarAlignment.Left);
    this.#item.name = 'Setproof: counts of this document';
    this.#item.command = SHOW_NOT_RUN;
    this.#parts = [
      this.#item,
      this.#opened,
      this.#look,
      changes.onDidChange(() => this.#look.call()),
      window.onDidChangeActiveTextEditor(() => this.#look.call()),
    ];
    this.#look.call();
  }

  /** The installation in the active editor; while a panel has the focus, the one before. */
  get installation(): Uri | undefined {
    return this.#installation;
  }

  dispose(): void {
    for (const each of this.#parts) each.dispose();
  }

  async #update(): Promise<void> {
    const document = window.activeTextEditor?.document;
    // A panel, a list or the log in front is no other document.
    if (document?.uri.scheme === 'output' || (document === undefined && window.visibleTextEditors.length > 0)) return;
    const uri = document?.languageId === 'yaml' ? document.uri : undefined;
    const params = { textDocument: { uri: uri?.toString() ?? '' } };
    const summary = uri && (await this.#session.ask<SummaryResult>(SUMMARY, params));
    if (document !== window.activeTextEditor?.document) return;
    this.#show(summary);
    this.#set(summary?.isInstallation ? uri : undefined);
  }

  #show(summary: SummaryResult | undefined): void {
    if (summary === undefined) {
      this.#item.hide();
      return;
    }
    this.#item.text = `Setproof: ${summary.words}`;
    this.#item.tooltip = 'Show what was not run, and what it lacks';
    this.#item.accessibilityInformation = { label: `Setproof: ${summary.words}. Show what was not run.` };
    this.#item.show();
  }

  #set(installation: Uri | undefined): void {
    const isSame = installation?.toString() === this.#installation?.toString();
    this.#installation = installation;
    if (isSame) return;
    void commands.executeCommand('setContext', 'setproof.onInstallation', installation !== undefined);
    if (installation !== undefined) this.#opened.fire(installation);
  }
}
