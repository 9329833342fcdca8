import {
  commands,
  type Disposable,
  EventEmitter,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  type TreeView,
  Uri,
  window,
} from 'vscode';
import { WELLS, type Well, type WellsResult } from '../../../server/src/language/views/protocol.ts';
import type { Changes } from './changes.ts';
import { AfterPause } from './pause.ts';
import type { Session } from './session.ts';

const PAUSE = 400;

interface Folder {
  readonly folder: string;
  readonly wells: readonly Well[];
}
type Node = Folder | Well;

/** The installations of the workspace, by folder, with their counts in words. */
export class Wells implements TreeDataProvider<Node>, Disposable {
  readonly #session: Session;
  readonly #look = new AfterPause(PAUSE, () => this.#update());
  readonly #emitter = new EventEmitter<void>();
  readonly #view: TreeView<Node>;
  readonly #parts: readonly Disposable[];
  #wells: readonly Well[] = [];
  #shown = '';

  readonly onDidChangeTreeData = this.#emitter.event;

  constructor(session: Session, changes: Changes) {
    this.#session = session;
    this.#view = window.createTreeView('setproof.wells', { treeDataProvider: this, showCollapseAll: true });
    this.#parts = [this.#view, this.#emitter, this.#look, changes.onDidChange(() => this.#look.call())];
  }

  get all(): readonly Well[] {
    return this.#wells;
  }

  getChildren(node?: Node): Node[] {
    if (node === undefined) return this.#folders();
    return 'wells' in node ? [...node.wells] : [];
  }

  getTreeItem(node: Node): TreeItem {
    return 'wells' in node ? folderItem(node) : wellItem(node);
  }

  dispose(): void {
    for (const each of this.#parts) each.dispose();
  }

  /** Folders, unless there is only one. */
  #folders(): Node[] {
    const folders = [...new Set(this.#wells.map(({ folder }) => folder))];
    if (folders.length <= 1) return [...this.#wells];
    return folders.map((folder) => ({ folder, wells: this.#wells.filter((each) => each.folder === folder) }));
  }

  async #update(): Promise<void> {
    const result = await this.#session.ask<WellsResult>(WELLS, {});
    if (result === undefined) return;
    const { wells, left } = result;
    this.#view.message = left > 0 ? `${left} documents are still to be looked at.` : '';
    const text = JSON.stringify(wells);
    if (text !== this.#shown) this.#take(wells, text);
    if (left > 0) this.#look.call();
  }

  #take(wells: readonly Well[], text: string): void {
    this.#shown = text;
    this.#wells = wells;
    const paths = wells.map(({ uri }) => Uri.parse(uri).fsPath);
    void commands.executeCommand('setContext', 'setproof.wellPaths', paths);
    this.#emitter.fire();
  }
}

function folderItem({ folder, wells }: Folder): TreeItem {
  const item = new TreeItem(folder === '' ? 'at the top' : folder, TreeItemCollapsibleState.Expanded);
  item.id = `folder ${folder}`;
  item.description = wells.length === 1 ? '1 well' : `${wells.length} wells`;
  item.contextValue = 'folder';
  return item;
}

function wellItem({ uri, name, folder, file, words }: Well): TreeItem {
  const item = new TreeItem(name);
  item.id = uri;
  item.description = words;
  item.tooltip = `${name}: ${words}\n${folder === '' ? file : `${folder}/${file}`}`;
  item.contextValue = 'well';
  item.accessibilityInformation = { label: `${name}, ${words}` };
  item.command = { command: 'vscode.open', title: 'Open', arguments: [Uri.parse(uri)] };
  return item;
}
