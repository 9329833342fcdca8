import { countFindings, type Finding } from '../../engine/index.ts';
import { visible } from '../../render/escape.ts';
import type { Session } from '../session.ts';
import type { Workspace } from '../workspace.ts';
import { countsWords, type WellLine, wellLine } from './counts.ts';
import { nameIn } from './names.ts';
import { WELLS, type Well, type WellsResult } from './protocol.ts';

export function answerWells(session: Session): void {
  const { connection, workspace } = session;
  connection.onRequest(WELLS, async (_params, token): Promise<WellsResult> => {
    await session.settled(token);
    await workspace.closed.hurry(Date.now);
    return { wells: wellsOf(workspace), left: workspace.closed.workLeft };
  });
}

/** The installations of the workspace, as typed where an editor holds them, in the order of their paths. */
function wellsOf(workspace: Workspace): readonly Well[] {
  const wells = new Map<string, Well>();
  for (const { path, findings, well } of workspace.closed.all()) {
    if (well !== undefined) wells.set(path, toWell(workspace, path, well, findings));
  }
  for (const { path } of workspace.open.all()) {
    const file = workspace.check(path);
    const line = file && wellLine(file);
    if (file !== undefined && line !== undefined) wells.set(path, toWell(workspace, path, line, file.findings));
    else wells.delete(path);
  }
  return [...wells].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)).map(([, well]) => well);
}

function toWell(workspace: Workspace, path: string, { name, notRun }: WellLine, findings: readonly Finding[]): Well {
  const own = visible(nameIn(workspace.folders, path));
  const cut = own.lastIndexOf('/');
  return {
    uri: workspace.open.uriOf(path),
    name: visible(name),
    folder: own.slice(0, Math.max(0, cut)),
    file: own.slice(cut + 1),
    words: countsWords({ ...countFindings(findings), notRun }),
  };
}
