import {
  buildChecklist,
  type CheckedFile,
  type Document,
  NONE,
  type NodeIndex,
  type Position,
} from '../../engine/index.ts';
import { renderChecklistHtml } from '../../render/checklist/html.ts';
import { visible } from '../../render/escape.ts';
import { counted } from '../../render/text/lines.ts';
import { renderWorksheetHtml } from '../../render/worksheet/html.ts';
import type { Session } from '../session.ts';
import { subjectAt } from '../subject.ts';
import { toPath } from '../uris.ts';
import type { Workspace } from '../workspace.ts';
import { checklistPanel, checklistRests } from './checklist-panel.ts';
import { nameIn } from './names.ts';
import { Places } from './places.ts';
import {
  FOLLOW,
  type FollowParams,
  type FollowResult,
  PAGE,
  PANEL,
  type PageParams,
  type PageResult,
  type PanelName,
  type PanelParams,
  type PanelResult,
} from './protocol.ts';
import { Rests, worksheetRests } from './rests.ts';
import { worksheetPanel } from './worksheet-panel.ts';

const MAKERS = { worksheet: worksheetPanel, checklist: checklistPanel };

/** What the panels ask: their content, what follows the cursor, and pages to keep. */
export function answerPanels(session: Session): void {
  const panels = new Panels(session.workspace);
  const { connection } = session;
  connection.onRequest<PanelResult, void>(
    PANEL,
    session.on<PanelResult, PanelParams>((file, params) => panels.content(file, params)),
  );
  connection.onRequest(
    FOLLOW,
    session.on<FollowResult | null, FollowParams>((file, params) => panels.follow(file, params)),
  );
  connection.onRequest(
    PAGE,
    session.on<PageResult | null, PageParams>((file, params) => panels.page(file, params)),
  );
}

/** A result of the engine is the same object as long as nothing that it rests on changes; so is what is made of it. */
class Panels {
  readonly #workspace: Workspace;
  readonly #ids = new WeakMap<CheckedFile, string>();
  #nextId = 1;
  readonly #rests: Readonly<Record<PanelName, WeakMap<CheckedFile, Rests>>> = {
    worksheet: new WeakMap(),
    checklist: new WeakMap(),
  };

  constructor(workspace: Workspace) {
    this.#workspace = workspace;
  }

  content(file: CheckedFile, { panel, shown }: PanelParams): PanelResult {
    const { document, worked } = file;
    if (document.kind !== 'installation') return null;
    const id = this.#idOf(file);
    if (id === shown) return { id, unchanged: true };
    const places = new Places(this.#workspace, document, worked?.evaluation);
    const { today } = this.#workspace.repository.options;
    const markup = MAKERS[panel](file, { today, nameOf: (path) => nameIn(this.#workspace.folders, path), places });
    const sheets = [...(worked?.evaluation.installation.sheets.values() ?? [])].map(({ path }) =>
      this.#workspace.open.uriOf(path),
    );
    return { id, title: titleOf(file, panel), html: markup.text, places: places.all, sheets: [...new Set(sheets)] };
  }

  follow(file: CheckedFile, { panel, cursor }: FollowParams): FollowResult | null {
    const { document, node } = subjectAt(this.#workspace, toPath(cursor.uri), cursor.position as Position) ?? {};
    if (document === undefined || node === undefined || node === NONE || node === document.tree.root) return null;
    const anchors = anchorsOn(this.#restsOf(file, panel), file, document, node);
    const what = panel === 'worksheet' ? 'value or bound' : 'step';
    const many = panel === 'worksheet' ? `${anchors.length} values and bounds` : counted(anchors.length, 'step');
    const rest = anchors.length === 0 ? `no ${what} rests` : anchors.length === 1 ? `1 ${what} rests` : `${many} rest`;
    return { words: `${document.tree.path(node)}: ${rest} on it.`, anchors };
  }

  page(file: CheckedFile, { panel, paper }: PageParams): PageResult | null {
    if (file.document.kind !== 'installation' || file.worked === undefined) return null;
    const { today } = this.#workspace.repository.options;
    const nameOf = (path: string) => nameIn(this.#workspace.folders, path);
    const html =
      panel === 'worksheet'
        ? renderWorksheetHtml(file, { paper, today, nameOf })
        : renderChecklistHtml(buildChecklist(file, { units: 'as-written', path: nameOf(file.document.path) }), {
            paper,
          });
    const own = file.document.path.split('/').at(-1) ?? 'well';
    return { name: `${own.replace(/\.ya?ml$/, '')}-${panel}`, html };
  }

  #restsOf(file: CheckedFile, panel: PanelName): Rests {
    const known = this.#rests[panel].get(file) ?? this.#makeRests(file, panel);
    this.#rests[panel].set(file, known);
    return known;
  }

  #makeRests(file: CheckedFile, panel: PanelName): Rests {
    if (panel === 'checklist') return checklistRests(file);
    return file.worked === undefined ? new Rests() : worksheetRests(file.worked);
  }

  #idOf(file: CheckedFile): string {
    const id = this.#ids.get(file) ?? String(this.#nextId++);
    this.#ids.set(file, id);
    return id;
  }
}

/** What rests on an entry, and where it names a data sheet, on anything in that. */
function anchorsOn(rests: Rests, { worked, document: own }: CheckedFile, document: Document, node: NodeIndex) {
  const { tree } = document;
  const names = (entry: NodeIndex) => entry === node || tree.child(entry, 'datasheet') === node;
  const sheets = document === own ? [...(worked?.evaluation.installation.sheets ?? [])] : [];
  const behind = sheets.filter(([entry]) => names(entry)).flatMap(([, sheet]) => rests.within(sheet));
  return [...new Set([...rests.on(document, node), ...behind])];
}

function titleOf({ document }: CheckedFile, panel: PanelName): string {
  const well = document.tree.scalar(document.tree.find('site.well')) || 'a well without a name';
  return visible(`${panel === 'worksheet' ? 'Worksheet' : 'Checklist'} ${well}`);
}
