import { statSync } from 'node:fs';
import {
  type CheckedFile,
  compareFiles,
  compareFleets,
  type FleetComparison,
  isInside,
  type Repository,
  withArticle,
} from '../engine/index.ts';
import { findFiles } from '../host/node/find.ts';
import { gitRoot, partingOf, resolveRevision, standingFolder } from '../host/node/git.ts';
import { loadDocuments } from '../host/node/load.ts';
import { absolutePath, relativePath } from '../host/node/paths.ts';
import { loadRevisions } from '../host/node/revisions.ts';
import type { Trouble } from '../host/node/walk.ts';
import { type CompareReport, fleetOfOne } from '../render/compare/report.ts';
import { writeOutput } from './output.ts';
import { type Scope, type ScopeArguments, scopeOf } from './scope.ts';
import { EXIT, Refusal, running, type Surroundings, say, styleOf } from './surroundings.ts';

export interface CompareArguments extends ScopeArguments {
  /** Two files or two folders; with `git`, the files and folders asked for, all without any. */
  readonly paths: readonly string[];
  /** `REV1..REV2`, `REV1...REV2` (since they parted), or `REV` against the files as they are. */
  readonly git?: string | undefined;
  readonly format?: 'text' | 'json' | 'markdown' | 'html' | undefined;
  readonly paper?: 'a4' | 'letter' | undefined;
  readonly output?: string | undefined;
  /** List the entries too that only say the same in another unit or spelling. */
  readonly rewritten?: boolean | undefined;
  readonly color?: boolean | undefined;
}

/** `setproof compare`: 0 when the comparison is written, whatever it says; 2 if not all could be compared. */
export function compare(args: CompareArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const scope = scopeOf(args, surroundings);
    const { report, troubles } =
      args.git === undefined ? comparePaths(args, scope, surroundings) : compareRevisions(args, scope, surroundings);
    for (const { path, reason } of troubles) say(surroundings, `'${scope.nameOf(path)}' was not compared: ${reason}.`);
    writeOutput(args.output, await written(report, args, surroundings), surroundings);
    return troubles.length > 0 ? EXIT.failed : EXIT.done;
  });
}

interface Compared {
  readonly report: CompareReport;
  readonly troubles: readonly Trouble[];
}

function comparePaths(args: CompareArguments, scope: Scope, surroundings: Surroundings): Compared {
  const [before, after, ...more] = args.paths;
  if (before === undefined || after === undefined || more.length > 0) {
    throw new Refusal(
      "Name two files or two folders, before and after; or a revision with '--git', such as '--git HEAD'.",
    );
  }
  const places = [before, after].map((name) => placeOf(name, scope, surroundings));
  const [old, now] = places as [Place, Place];
  if (old.isFolder !== now.isFolder)
    throw new Refusal(`'${before}' and '${after}' are a file and a folder; name two of a kind.`);
  const { fleet, troubles } = old.isFolder ? compareFolders(old.path, now.path, scope) : compareTwo(old, now, scope);
  return { report: { ...reportOf(fleet, args, scope), before, after }, troubles };
}

function reportOf(fleet: FleetComparison, { rewritten }: CompareArguments, { nameOf, options }: Scope): CompareReport {
  return { fleet, nameOf, today: options.today, showsRewritten: rewritten ?? false, before: '', after: '' };
}

interface Place {
  readonly name: string;
  readonly path: string;
  readonly isFolder: boolean;
}

function placeOf(name: string, scope: Scope, { cwd }: Surroundings): Place {
  const path = absolutePath(cwd, name);
  const status = statSync(path, { throwIfNoEntry: false });
  if (status === undefined) throw new Refusal(`There is no file or folder '${name}'.`);
  scope.admit(path);
  return { name, path, isFolder: status.isDirectory() };
}

interface FleetWithTroubles {
  readonly fleet: FleetComparison;
  readonly troubles: readonly Trouble[];
}

function compareTwo(before: Place, after: Place, scope: Scope): FleetWithTroubles {
  const [old, now] = [openFile(before, scope), openFile(after, scope)];
  const [one, other] = [old.document, now.document];
  if (one.kind !== other.kind) {
    throw new Refusal(
      `'${before.name}' is ${withArticle(one.label)} and '${after.name}' ${withArticle(other.label)}; only two of a kind can be compared.`,
    );
  }
  return { fleet: fleetOfOne(compareFiles(old, now)), troubles: [] };
}

function openFile({ name, path }: Place, scope: Scope): CheckedFile {
  const { repository, troubles } = loadDocuments([path], scope.roots, scope.options);
  const [trouble] = troubles;
  if (trouble !== undefined) throw new Refusal(`'${scope.nameOf(trouble.path)}' cannot be read: ${trouble.reason}.`);
  const file = repository.check(path);
  if (file === undefined || !file.document.ours || file.document.kind === undefined) {
    const [problem] = file?.document.problems ?? [];
    const reason = problem?.message ?? "it has no key 'document' that says what it is.";
    throw new Refusal(`'${name}' is no document of Setproof: ${reason}`);
  }
  return file;
}

function compareFolders(before: string, after: string, scope: Scope): FleetWithTroubles {
  const [old, now] = [loadFolder(before, scope), loadFolder(after, scope)];
  const side = (folder: string, repository: Repository) => ({
    repository,
    nameOf: (path: string) => relativePath(folder, path),
  });
  const fleet = compareFleets(side(before, old.repository), side(after, now.repository));
  if (fleet.total === 0) throw new Refusal('There is no document of Setproof in either folder.');
  return { fleet, troubles: [...old.troubles, ...now.troubles] };
}

function loadFolder(folder: string, { roots, options }: Scope) {
  const found = findFiles([folder], roots, options.policy);
  const loaded = loadDocuments(
    found.files.map(({ path }) => path),
    roots,
    options,
  );
  return { repository: loaded.repository, troubles: [...found.troubles, ...loaded.troubles] };
}

function compareRevisions(args: CompareArguments, scope: Scope, surroundings: Surroundings): Compared {
  const asked = args.paths.map((name) => absolutePath(surroundings.cwd, name));
  const root = gitRoot(standingFolder(asked[0] ?? surroundings.cwd));
  for (const path of asked)
    if (!isInside(path, root)) throw new Refusal(`'${scope.nameOf(path)}' lies outside of the repository '${root}'.`);
  const { from, to, before, after } = revisionsIn(root, args.git ?? '');
  const states = loadRevisions({ root, from, to }, scope.roots, scope.options);
  for (const path of asked) admitAsked(path, scope.nameOf(path), states);
  const nameOf = (path: string) => path;
  const fleet = compareFleets(
    { repository: states.before, nameOf },
    { repository: states.after, nameOf },
    (path) => asked.length === 0 || asked.some((each) => isInside(path, each)),
  );
  return { report: { ...reportOf(fleet, args, scope), before, after }, troubles: states.troubles };
}

/** A name that was mistyped must not look like a file without a change. */
function admitAsked(
  path: string,
  name: string,
  { before, after }: { readonly before: Repository; readonly after: Repository },
): void {
  const isThere = [before, after].some((each) => each.paths().some((known) => isInside(known, path)));
  if (!isThere) throw new Refusal(`There is no document '${name}' on either side.`);
}

const RANGE = /^(.*?)(\.{2,3})(.*)$/;

/** What is compared with what: full names of revisions, and in words. */
function revisionsIn(root: string, written: string) {
  const [, one = written, dots, other = ''] = RANGE.exec(written) ?? [];
  if (dots === undefined)
    return { from: resolveRevision(root, one), to: undefined, before: one, after: 'the files as they are now' };
  const [first, last] = [one || 'HEAD', other || 'HEAD'];
  const to = resolveRevision(root, last);
  if (dots === '..') return { from: resolveRevision(root, first), to, before: first, after: last };
  return { from: partingOf(root, first, last), to, before: `where ${last} parted from ${first}`, after: last };
}

async function written(report: CompareReport, args: CompareArguments, surroundings: Surroundings): Promise<string> {
  switch (args.format) {
    case 'json':
      return (await import('../render/compare/json.ts')).comparisonJson(report);
    case 'html':
      return (await import('../render/compare/html.ts')).renderComparisonHtml(report, args.paper ?? 'a4');
    case 'markdown':
      return (await import('../render/compare/markdown.ts')).comparisonMarkdown(report);
    default:
      return (await import('../render/compare/text.ts')).comparisonText(report, styleOf(args, surroundings));
  }
}
