import {
  commands,
  type ExtensionContext,
  extensions,
  type QuickPickItem,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
} from 'vscode';
import type { ReadAnswer, ReadResult } from '../../../server/src/language/protocol.ts';
import {
  COMPARISON,
  type ComparisonParams,
  type ComparisonResult,
  READ_AT,
  type ReadAtParams,
  type Revision,
} from '../../../server/src/language/views/protocol.ts';
import { type CommandTarget, type Parts, wellFor } from '../common/commands.ts';
import { panelPage, panelRoots } from '../common/panel-page.ts';
import { AfterPause } from '../common/pause.ts';
import type { GitApi, GitExtension, GitRepository } from './git-api.ts';

const MOST_REVISIONS = 200;
const PAUSE = 500;
const SHORT_HASH = 8;

/** Offers the comparison with a revision where the editor's own git extension is at hand; elsewhere there is none. */
export async function offerComparison(context: ExtensionContext, parts: Parts): Promise<void> {
  const extension = extensions.getExtension<GitExtension>('vscode.git');
  const git = await extension?.activate().then(undefined, () => undefined);
  if (git === undefined) return;
  if (git.enabled) begin(context, parts, git.getAPI(1));
  else {
    const once = git.onDidChangeEnablement((enabled) => {
      if (!enabled) return;
      once.dispose();
      begin(context, parts, git.getAPI(1));
    });
    context.subscriptions.push(once);
  }
}

function begin(context: ExtensionContext, parts: Parts, git: GitApi): void {
  const comparison = new Comparison(context, parts, git);
  const tell = () => commands.executeCommand('setContext', 'setproof.canCompare', git.repositories.length > 0);
  void tell();
  context.subscriptions.push(
    git.onDidOpenRepository(tell),
    git.onDidCloseRepository(tell),
    parts.changes.onDidChange(() => comparison.changed()),
    commands.registerCommand('setproof.compareWithRevision', async (target: CommandTarget) => {
      const well = await wellFor(target, parts);
      if (well !== undefined) await comparison.open(well);
    }),
  );
}

/** What changed in a well since a revision, beside the editor and in step with it. */
class Comparison {
  readonly #extension: Uri;
  readonly #parts: Parts;
  readonly #git: GitApi;
  readonly #refresh = new AfterPause(PAUSE, () => this.#show());
  /** A revision's texts never change. */
  readonly #texts = new Map<string, Promise<ReadAnswer>>();
  #view: WebviewPanel | undefined;
  #subject: { readonly well: Uri; readonly revision: Revision } | undefined;

  constructor(context: ExtensionContext, parts: Parts, git: GitApi) {
    this.#extension = context.extensionUri;
    this.#parts = parts;
    this.#git = git;
    context.subscriptions.push(this.#refresh);
    parts.session.serve((client) => {
      client.onRequest(READ_AT, (params: ReadAtParams) => this.#readAt(params));
    });
  }

  async open(well: Uri): Promise<void> {
    const repository = this.#git.getRepository(well);
    if (repository === null) {
      await window.showInformationMessage(
        `${well.path.split('/').at(-1)} is in no git repository that the editor knows.`,
      );
      return;
    }
    const revision = await chooseRevision(repository, well);
    if (revision === undefined) return;
    this.#subject = { well, revision };
    if (this.#view === undefined) this.#view = this.#makeView();
    else this.#view.reveal(undefined, true);
    await this.#show();
  }

  changed(): void {
    if (this.#view?.visible) this.#refresh.call();
  }

  #makeView(): WebviewPanel {
    const options = { enableScripts: true, localResourceRoots: panelRoots(this.#extension) };
    const column = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    const view = window.createWebviewPanel('setproof.comparison', 'Since revision', column, options);
    view.webview.onDidReceiveMessage(() => this.#show());
    view.onDidDispose(() => {
      this.#view = undefined;
    });
    view.webview.html = panelPage(view.webview, this.#extension);
    return view;
  }

  async #show(): Promise<void> {
    const [view, subject] = [this.#view, this.#subject];
    if (view === undefined || subject === undefined) return;
    const params: ComparisonParams = {
      textDocument: { uri: subject.well.toString() },
      revision: subject.revision,
    };
    const result = await this.#parts.session.ask<ComparisonResult>(COMPARISON, params);
    if (subject !== this.#subject) return;
    view.title = result?.title ?? 'Since revision';
    const text = 'The comparison could not be made: the document is not open, or is no installation.';
    await view.webview.postMessage(result === undefined ? { text } : { show: result.html });
  }

  async #readAt({ revision, uris }: ReadAtParams): Promise<ReadResult> {
    return { files: await Promise.all(uris.map((uri) => this.#textAt(revision, uri))) };
  }

  #textAt(revision: string, uri: string): Promise<ReadAnswer> {
    const name = `${revision} ${uri}`;
    const known = this.#texts.get(name) ?? readAt(this.#git, revision, Uri.parse(uri));
    this.#texts.set(name, known);
    return known;
  }
}

async function readAt(git: GitApi, revision: string, uri: Uri): Promise<ReadAnswer> {
  const repository = git.getRepository(uri);
  if (repository === null) return { absent: true };
  return repository.show(revision, uri.fsPath).then(
    (text) => ({ text }),
    (error: unknown) => (isAbsence(error) ? { absent: true } : { unreadable: saidBy(error) }),
  );
}

function isAbsence(error: unknown): boolean {
  return /UnknownPath|does not exist|exists on disk/i.test(saidBy(error));
}

/** Git says on its standard error what is wrong, the extension in a code of its own. */
function saidBy(error: unknown): string {
  if (typeof error !== 'object' || error === null) return String(error);
  const parts = ['message', 'gitErrorCode', 'stderr'].map((name) =>
    String((error as Record<string, unknown>)[name] ?? ''),
  );
  return parts.filter((part) => part !== '').join(' ');
}

async function chooseRevision(repository: GitRepository, well: Uri): Promise<Revision | undefined> {
  const [all, own] = await Promise.all([
    repository.log({ maxEntries: 1 }),
    repository.log({ maxEntries: MOST_REVISIONS, path: well.fsPath }),
  ]);
  const head = all[0];
  const items = [
    ...(head === undefined ? [] : [{ label: 'HEAD', description: head.message, id: head.hash }]),
    ...own.map(({ hash, message, authorDate }): QuickPickItem & { id: string } => ({
      label: hash.slice(0, SHORT_HASH),
      description: `${authorDate?.toISOString().slice(0, 10) ?? ''} ${message.split('\n')[0]}`,
      id: hash,
    })),
  ];
  const chosen = await window.showQuickPick(items, {
    title: 'Compare with a revision',
    placeHolder: 'Revisions in which this well changed, the latest first',
    matchOnDescription: true,
  });
  return chosen && { id: chosen.id, label: chosen.label };
}
