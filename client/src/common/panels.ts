import { type Disposable, type ExtensionContext, Uri, type WebviewPanel, window } from 'vscode';
import type { PanelName } from '../../../server/src/language/views/protocol.ts';
import type { Changes } from './changes.ts';
import { Panel, VIEW_TYPES } from './panel.ts';
import type { Session } from './session.ts';

export type Panels = Readonly<Record<PanelName, Panel>>;

/** The worksheet and the checklist beside the editor. */
export function makePanels(context: ExtensionContext, session: Session, changes: Changes): Panels {
  const panels: Panels = {
    worksheet: new Panel('worksheet', session, context.extensionUri),
    checklist: new Panel('checklist', session, context.extensionUri),
  };
  const all = Object.values(panels);
  context.subscriptions.push(
    ...all,
    changes.onDidChange(() => {
      for (const each of all) each.changed();
    }),
    window.onDidChangeTextEditorSelection(() => {
      for (const each of all) each.moved();
    }),
    ...(Object.keys(panels) as PanelName[]).map((name) => restores(name, panels[name])),
  );
  return panels;
}

function restores(name: PanelName, panel: Panel): Disposable {
  return window.registerWebviewPanelSerializer(VIEW_TYPES[name], {
    deserializeWebviewPanel: async (view: WebviewPanel, state: unknown) => {
      const well = wellOf(state);
      // Of two that were open only one is kept up to date.
      if (well === undefined || panel.well !== undefined) view.dispose();
      else panel.restore(view, well);
    },
  });
}

function wellOf(state: unknown): Uri | undefined {
  const isState = typeof state === 'object' && state !== null && 'well' in state && typeof state.well === 'string';
  return isState ? Uri.parse(state.well as string) : undefined;
}
