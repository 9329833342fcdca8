import { type Change, type CheckedFile, compareFiles, Repository } from '../../engine/index.ts';
import { comparisonHtml } from '../../render/compare/html.ts';
import { visible } from '../../render/escape.ts';
import type { ReadResult } from '../protocol.ts';
import type { Session } from '../session.ts';
import type { Workspace } from '../workspace.ts';
import { nameIn } from './names.ts';
import { COMPARISON, type ComparisonParams, type ComparisonResult, READ_AT, type ReadAtParams } from './protocol.ts';

export function answerComparison(session: Session): void {
  session.connection.onRequest(
    COMPARISON,
    session.on<ComparisonResult | null, ComparisonParams>((file, params) => compare(session, file, params)),
  );
}

async function compare(session: Session, file: CheckedFile, { revision }: ComparisonParams) {
  const { workspace } = session;
  const { path, kind } = file.document;
  if (kind !== 'installation') return null;
  const before = await alone(workspace, path, (paths) => readAt(session, revision.id, paths));
  const after = await alone(workspace, path, (paths) => paths.map((each) => asItStands(workspace, each)));
  const comparison = compareFiles(before, after);
  const documents = comparison.change === 'same' ? [] : [comparison];
  const html = comparisonHtml({
    fleet: { documents, users: new Map(), total: 1 },
    nameOf: (each) => nameIn(workspace.folders, each),
    today: workspace.repository.options.today,
    showsRewritten: false,
    before: revision.label,
    after: 'the files as they are',
  });
  return { title: visible(`Since ${revision.label}: ${path.split('/').at(-1)}`), html: html.text };
}

type ReadAll = (paths: readonly string[]) => readonly Change[] | Promise<readonly Change[]>;

/**
 * An installation checked with its data sheets and policy, but without the other wells: both sides of a comparison must
 * see as much, or checks across wells would seem to have changed.
 */
async function alone(workspace: Workspace, path: string, read: ReadAll): Promise<CheckedFile | undefined> {
  const { options } = workspace.repository;
  const root = workspace.repository.rootOf(path);
  let repository = Repository.empty({ ...options, root });
  for (let wanted: readonly string[] = [path]; wanted.length > 0; wanted = repository.wanted()) {
    repository = repository.update(await read(wanted));
  }
  const file = repository.check(path);
  return file?.document.ours ? file : undefined;
}

function asItStands({ repository }: Workspace, path: string): Change {
  const text = repository.document(path)?.source.text;
  return text === undefined ? { path, absent: true } : { path, text };
}

async function readAt({ connection, workspace }: Session, revision: string, paths: readonly string[]) {
  const uris = paths.map((path) => workspace.open.uriOf(path));
  const { files } = await connection.sendRequest<ReadResult>(READ_AT, { revision, uris } satisfies ReadAtParams);
  return paths.map((path, at): Change => ({ path, ...(files[at] ?? { absent: true }) }));
}
