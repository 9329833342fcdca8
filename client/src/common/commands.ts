import { commands, type Disposable, type LogOutputChannel, type QuickPickItem, Uri, window } from 'vscode';
import { OPEN_CHECKLIST, OPEN_WORKSHEET, SHOW_NOT_RUN } from '../../../server/src/language/protocol.ts';
import type { PanelName, Well } from '../../../server/src/language/views/protocol.ts';
import type { ActiveDocument } from './active.ts';
import type { Changes } from './changes.ts';
import { newDocument } from './new-document.ts';
import { showNotRun } from './not-run.ts';
import type { Panels } from './panels.ts';
import { savePage } from './save-page.ts';
import type { Session } from './session.ts';
import type { Wells } from './wells.ts';

/** What a command may be called with: by a lens, from the list of wells, from the explorer, or with nothing. */
export type CommandTarget = string | Uri | Well | undefined;

export interface Parts {
  readonly session: Session;
  readonly output: LogOutputChannel;
  readonly changes: Changes;
  readonly panels: Panels;
  readonly active: ActiveDocument;
  readonly wells: Wells;
}

export function registerCommands(parts: Parts): readonly Disposable[] {
  const { session, output } = parts;
  const onWell = (id: string, run: (well: Uri) => unknown) =>
    commands.registerCommand(id, async (target: CommandTarget) => {
      const well = await wellFor(target, parts);
      if (well !== undefined) await run(well);
    });
  return [
    onWell(OPEN_WORKSHEET, (well) => openPanel('worksheet', well, parts)),
    onWell(OPEN_CHECKLIST, (well) => openPanel('checklist', well, parts)),
    onWell('setproof.saveWorksheet', (well) => savePage(session, 'worksheet', well)),
    onWell('setproof.saveChecklist', (well) => savePage(session, 'checklist', well)),
    commands.registerCommand(SHOW_NOT_RUN, async (target: CommandTarget) => {
      const document = uriOf(target) ?? window.activeTextEditor?.document.uri ?? (await wellFor(undefined, parts));
      if (document !== undefined) await showNotRun(session, document);
    }),
    commands.registerCommand('setproof.newDocument', () => newDocument(session)),
    commands.registerCommand('setproof.showLog', () => output.show()),
    commands.registerCommand('setproof.restartServer', () => session.restart()),
  ];
}

/** With the well in its editor: a panel alone has nothing to stand beside. */
async function openPanel(name: PanelName, well: Uri, { panels }: Parts): Promise<void> {
  const isShown = window.visibleTextEditors.some(({ document }) => document.uri.toString() === well.toString());
  if (!isShown) await window.showTextDocument(well, { preview: false });
  panels[name].open(well);
}

/** The well that a command is about: the one told, the one worked on, the one shown in a panel, or one to choose. */
export async function wellFor(target: CommandTarget, { active, panels, wells }: Parts): Promise<Uri | undefined> {
  return (
    uriOf(target) ?? active.installation ?? panels.worksheet.well ?? panels.checklist.well ?? (await choose(wells.all))
  );
}

function uriOf(target: CommandTarget): Uri | undefined {
  if (target === undefined || target instanceof Uri) return target;
  return Uri.parse(typeof target === 'string' ? target : target.uri);
}

async function choose(wells: readonly Well[]): Promise<Uri | undefined> {
  if (wells.length === 0) {
    await window.showInformationMessage(
      'There is no installation in this workspace. "Setproof: New document" begins one.',
    );
    return undefined;
  }
  const items = wells.map(({ name, words, uri }): QuickPickItem & { uri: string } => ({
    label: name,
    description: words,
    uri,
  }));
  const chosen = await window.showQuickPick(items, { placeHolder: 'Of which well?', matchOnDescription: true });
  return chosen && Uri.parse(chosen.uri);
}
