import { type Disposable, Uri, ViewColumn, type WebviewPanel, window, workspace } from 'vscode';
import {
  FOLLOW,
  type FollowParams,
  type FollowResult,
  PANEL,
  type PanelName,
  type PanelParams,
  type PanelResult,
  type Place,
} from '../../../server/src/language/views/protocol.ts';
import { reveal } from './editor.ts';
import { panelPage, panelRoots } from './panel-page.ts';
import { AfterPause } from './pause.ts';
import type { Session } from './session.ts';

/** How long typing, or the cursor, rests before the panel follows, ms. */
const TYPED = 120;
const MOVED = 80;

export const VIEW_TYPES: Readonly<Record<PanelName, string>> = {
  worksheet: 'setproof.worksheet',
  checklist: 'setproof.checklist',
};
const TITLES: Readonly<Record<PanelName, string>> = { worksheet: 'Worksheet', checklist: 'Checklist' };

/** What the page of a panel tells: it is there, or an entry was chosen in it. */
type Told = { readonly ready: true } | { readonly go: number };

/** One panel beside the editor. It shows one well at a time, and goes along to the next that is opened. */
export class Panel implements Disposable {
  readonly #name: PanelName;
  readonly #session: Session;
  readonly #extension: Uri;
  readonly #refresh = new AfterPause(TYPED, () => this.#show());
  readonly #follow = new AfterPause(MOVED, () => this.#followCursor());
  #view: WebviewPanel | undefined;
  #well: Uri | undefined;
  #shown: string | undefined;
  #places: readonly Place[] = [];
  #sheets: ReadonlySet<string> = new Set();

  constructor(name: PanelName, session: Session, extension: Uri) {
    this.#name = name;
    this.#session = session;
    this.#extension = extension;
  }

  /** The well that is shown; undefined while the panel is closed. */
  get well(): Uri | undefined {
    return this.#view === undefined ? undefined : this.#well;
  }

  /** Opens the panel beside the editor, or brings it to the front. */
  open(well: Uri): void {
    if (this.#view === undefined) {
      const options = { viewColumn: ViewColumn.Beside, preserveFocus: true };
      this.#adopt(window.createWebviewPanel(VIEW_TYPES[this.#name], TITLES[this.#name], options, this.#options));
    } else this.#view.reveal(undefined, true);
    this.switchTo(well);
  }

  /** Takes over a panel that the editor kept from before a reload. */
  restore(view: WebviewPanel, well: Uri): void {
    view.webview.options = this.#options;
    this.#well = well;
    this.#adopt(view);
  }

  /** Shows another well, if the panel is open. */
  switchTo(well: Uri): void {
    if (well.toString() === this.#well?.toString() && this.#shown !== undefined) return;
    this.#well = well;
    this.#shown = undefined;
    this.#refresh.call();
  }

  /** What is shown may be another now. */
  changed(): void {
    if (this.#view?.visible) this.#refresh.call();
  }

  /** The cursor of an editor went elsewhere. */
  moved(): void {
    if (this.#view?.visible && followsCursor()) this.#follow.call();
  }

  dispose(): void {
    this.#refresh.dispose();
    this.#follow.dispose();
    this.#view?.dispose();
  }

  get #options() {
    return { enableScripts: true, localResourceRoots: panelRoots(this.#extension) };
  }

  #adopt(view: WebviewPanel): void {
    this.#view = view;
    view.webview.onDidReceiveMessage((told: Told) => this.#hear(told));
    view.onDidChangeViewState(() => this.changed());
    view.onDidDispose(() => {
      this.#view = undefined;
      this.#well = undefined;
      this.#shown = undefined;
    });
    view.webview.html = panelPage(view.webview, this.#extension);
  }

  #hear(told: Told): void {
    if ('ready' in told) {
      // A page that was hidden begins anew and knows nothing.
      this.#shown = undefined;
      void this.#show();
      return;
    }
    const place = this.#places[told.go];
    if (place !== undefined) void reveal(place);
  }

  async #show(): Promise<void> {
    const [view, well] = [this.#view, this.#well];
    if (view === undefined || well === undefined) return;
    // The server knows the values of documents that are open; whoever closed the editor still looks at the panel.
    const document = await workspace.openTextDocument(well).then(undefined, () => undefined);
    const params: PanelParams = {
      textDocument: { uri: well.toString() },
      panel: this.#name,
      shown: this.#shown,
    };
    const result = document && (await this.#session.ask<PanelResult>(PANEL, params));
    if (view !== this.#view || well !== this.#well) return;
    if (result === undefined || result === null) this.#showNothing(view, well);
    else if (!('unchanged' in result)) this.#showContent(view, well, result);
  }

  #showContent(view: WebviewPanel, well: Uri, result: Extract<PanelResult, { html: string }>): void {
    this.#shown = result.id;
    this.#places = result.places;
    this.#sheets = new Set(result.sheets.map(normal));
    view.title = result.title;
    void view.webview.postMessage({ show: result.html, state: { well: well.toString() } });
    this.moved();
  }

  /** An empty panel would look as if there were nothing to say. */
  #showNothing(view: WebviewPanel, well: Uri): void {
    this.#shown = undefined;
    const file = well.path.split('/').at(-1) ?? '';
    void view.webview.postMessage({
      text: `${file} is not there, or is no installation, so there is nothing to show.`,
    });
  }

  async #followCursor(): Promise<void> {
    const editor = window.activeTextEditor;
    const [view, well] = [this.#view, this.#well];
    if (editor === undefined || view === undefined || well === undefined) return;
    const uri = editor.document.uri.toString();
    if (normal(uri) !== normal(well.toString()) && !this.#sheets.has(normal(uri))) return;
    // A worker is handed a copy of the fields, and the editor's own position hides them.
    const { line, character } = editor.selection.active;
    const params: FollowParams = {
      textDocument: { uri: well.toString() },
      panel: this.#name,
      cursor: { uri, position: { line, character } },
    };
    const result = await this.#session.ask<FollowResult>(FOLLOW, params);
    if (well === this.#well) void view.webview.postMessage({ follow: result ?? { words: '', anchors: [] } });
  }
}

function followsCursor(): boolean {
  return workspace.getConfiguration('setproof').get('panels.followCursor', true);
}

/** Two spellings of one address are one. */
function normal(uri: string): string {
  return Uri.parse(uri).toString();
}
