import { execFileSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { compareText, folderOf, isInside } from '../../engine/index.ts';
import { Refusal } from '../refusal.ts';
import { decodeUtf8 } from './decode.ts';
import type { FileReading } from './read.ts';
import { realPath } from './root.ts';

/** A little more than the engine reads at most: enough for it to see that the text is too large. */
const MOST_BYTES = 1024 * 1024 + 64;
const MOST_OUTPUT = 512 * 1024 * 1024;
/** How many files one run of git is asked for, so that its answer stays within what is held in memory. */
const BATCH = 400;

/** A repository must not decide what is run here, and reading must neither write nor fetch. */
const SETTINGS = ['-c', 'core.fsmonitor=false', '-c', 'core.hooksPath=/dev/null', '-c', 'core.quotePath=false'];
const ENVIRONMENT = {
  LC_ALL: 'C',
  GIT_OPTIONAL_LOCKS: '0',
  GIT_LITERAL_PATHSPECS: '1',
  GIT_NO_LAZY_FETCH: '1',
  GIT_TERMINAL_PROMPT: '0',
};
/** Within a hook these lead to the repository from the folder that the hook runs in, which is not ours. */
const OF_HOOKS = ['GIT_DIR', 'GIT_WORK_TREE', 'GIT_INDEX_FILE', 'GIT_PREFIX'];

/**
 * The top folder of the repository that a path lies in, named as the path is named.
 * @param folder absolute with `/`; a folder that exists
 * @throws Refusal where there is no git or no repository
 */
export function gitRoot(folder: string): string {
  const [top = '', prefix = ''] = text(
    folder,
    ['rev-parse', '--show-toplevel', '--show-prefix'],
    outside(folder),
  ).split('\n');
  const below = prefix.replace(/\/$/, '');
  // Git names the real folder; a path that came through a symbolic link keeps its own name.
  if (below === '') return realPath(folder) === top ? folder : top;
  return folder.endsWith(`/${below}`) ? folder.slice(0, -below.length - 1) : top;
}

function outside(folder: string) {
  return (said: string) =>
    /not a git repository/i.test(said)
      ? `'${folder}' lies in no git repository, so there is no revision of it.`
      : `Git cannot tell the repository of '${folder}': ${said}.`;
}

/**
 * A revision by its full name, fit for any command.
 * @param revision as a person writes it: a branch, a tag, `HEAD~2`, a hash
 * @throws Refusal where the repository has no such revision
 */
export function resolveRevision(root: string, revision: string): string {
  if (FULL_NAME.test(revision)) return revision;
  // Git would take what begins with a dash for an option.
  if (!/^[^-\s\0-\x1f\x7f][^\s\0-\x1f\x7f]*$/.test(revision)) throw new Refusal(`'${revision}' is no revision of git.`);
  const args = ['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`];
  return text(root, args, () => unknown(root, revision)).trim();
}

const FULL_NAME = /^(?:[0-9a-f]{40}|[0-9a-f]{64})$/;

function unknown(root: string, revision: string): string {
  return `There is no revision '${revision}' in the repository '${root}'. A clone with little history may lack it: fetch it first.`;
}

/** The revision from which two others part. @throws Refusal where one is unknown or they have nothing in common */
export function partingOf(root: string, one: string, other: string): string {
  const names = [resolveRevision(root, one), resolveRevision(root, other)];
  return text(root, ['merge-base', ...names], () => `'${one}' and '${other}' have no revision in common.`).trim();
}

/**
 * The files that differ from a revision: changed, added (also those that git does not follow yet, unless it is told to
 * leave them out) and removed. A file that was moved is removed in one place and added in another.
 * @param root top folder of the repository
 * @param revision what the files of the working tree are compared with
 * @param until compare that revision with this one instead
 * @returns absolute paths, sorted
 * @throws Refusal where the revision is unknown
 */
export function changedFiles(root: string, revision: string, until?: string): readonly string[] {
  const names = [revision, ...(until === undefined ? [] : [until])].map((each) => resolveRevision(root, each));
  const options = ['--name-only', '-z', '--no-renames', '--no-ext-diff', '--no-textconv', '--ignore-submodules'];
  const changed = text(root, ['diff', ...options, ...names, '--'], failed('compare revisions'));
  const others = ['ls-files', '--others', '--exclude-standard', '-z', '--'];
  const added = until === undefined ? text(root, others, failed('list new files')) : '';
  const found = new Set(`${changed}${added}`.split('\0').filter((name) => name !== ''));
  return [...found].map((name) => `${root}/${name}`).sort(compareText);
}

interface Entry {
  readonly mode: string;
  readonly name: string;
  readonly size: number;
}

const REGULAR = new Set(['100644', '100755']);
const LINK = '120000';

/** The files of one revision; its tree is listed once, and many files are read in one run of git. */
export class RevisionFiles {
  readonly #root: string;
  readonly #entries: ReadonlyMap<string, Entry>;

  /**
   * @param within only the file at this path, or the files below it
   * @throws Refusal where the revision is unknown
   */
  constructor(root: string, revision: string, within: string = root) {
    this.#root = root;
    this.#entries = entriesOf(root, resolveRevision(root, revision), within);
  }

  /** Whether there is a file at a path, or a folder. */
  has(path: string): boolean {
    return (
      this.#entries.has(path) || path === this.#root || [...this.#entries.keys()].some((each) => isInside(each, path))
    );
  }

  below(folder: string): readonly string[] {
    return [...this.#entries]
      .filter(([path, { mode }]) => isInside(path, folder) && REGULAR.has(mode))
      .map(([path]) => path);
  }

  /** What reading each path gave, in their order. */
  read(paths: readonly string[]): readonly FileReading[] {
    const names = paths.map((path) => this.#entries.get(path));
    const texts = blobsOf(this.#root, new Set(names.flatMap((each) => (isReadable(each) ? [each.name] : []))));
    return names.map((entry) => {
      if (entry === undefined) return { absent: true };
      return isReadable(entry) ? { text: texts.get(entry.name) ?? '' } : { unreadable: whyNot(entry) };
    });
  }
}

function isReadable(entry: Entry | undefined): entry is Entry {
  return entry !== undefined && REGULAR.has(entry.mode) && entry.size <= MOST_READ;
}

/** What is larger was never meant to be read, and git would hold it whole in memory. */
const MOST_READ = 64 * MOST_BYTES;

function whyNot({ mode }: Entry): string {
  if (mode === LINK) return 'it is a symbolic link, which is not followed in a revision';
  return REGULAR.has(mode) ? 'it is far too large for a document' : 'it is no regular file';
}

function entriesOf(root: string, revision: string, within: string): ReadonlyMap<string, Entry> {
  if (!isInside(within, root)) return new Map();
  const narrowed = within === root ? [] : [within.slice(root.length + 1)];
  const args = ['ls-tree', '-r', '-z', '-l', '--full-tree', revision, '--', ...narrowed];
  const lines = text(root, args, failed('list a revision')).split('\0');
  return new Map(lines.flatMap((line) => entryIn(root, line)).sort(([a], [b]) => compareText(a, b)));
}

/** `100644 blob <name> <size>` and, after a tab, the path. */
function entryIn(root: string, line: string): readonly (readonly [string, Entry])[] {
  const tab = line.indexOf('\t');
  const [mode, type, name, size] = line.slice(0, Math.max(tab, 0)).split(/ +/);
  if (tab < 0 || type !== 'blob' || mode === undefined || name === undefined) return [];
  return [[`${root}/${line.slice(tab + 1)}`, { mode, name, size: Number(size) }]];
}

function blobsOf(root: string, names: ReadonlySet<string>): ReadonlyMap<string, string> {
  const asked = [...names];
  const texts = new Map<string, string>();
  for (let at = 0; at < asked.length; at += BATCH) {
    const input = `${asked.slice(at, at + BATCH).join('\n')}\n`;
    addBlobs(run(root, ['cat-file', '--batch'], failed('read a revision'), input), texts);
  }
  return texts;
}

const LINE_END = 0x0a;

/** Each blob comes as a line `<name> blob <size>`, that many bytes, and a line end. */
function addBlobs(bytes: Buffer, texts: Map<string, string>): void {
  let at = 0;
  while (at < bytes.length) {
    const end = bytes.indexOf(LINE_END, at);
    const [name = '', type, size] = bytes.toString('utf8', at, end).split(' ');
    const length = type === 'blob' ? Number(size) : 0;
    if (type === 'blob') texts.set(name, decodeUtf8(bytes.subarray(end + 1, end + 1 + Math.min(length, MOST_BYTES))));
    at = end + 1 + (type === 'blob' ? length + 1 : 0);
  }
}

type Failing = (said: string) => string;

function failed(task: string): Failing {
  return (said) => `Git could not ${task}: ${said}.`;
}

function text(folder: string, args: readonly string[], failing: Failing): string {
  return run(folder, args, failing).toString('utf8');
}

/** Runs git, never through a shell. @throws Refusal with what git said, in the words of `failing` */
function run(folder: string, args: readonly string[], failing: Failing, input = ''): Buffer {
  const env = { ...process.env, ...ENVIRONMENT };
  for (const name of OF_HOOKS) delete (env as NodeJS.ProcessEnv)[name];
  try {
    return execFileSync('git', ['-C', folder, ...SETTINGS, ...args], {
      ...{ env, input, maxBuffer: MOST_OUTPUT, windowsHide: true },
      stdio: ['pipe', 'pipe', 'pipe'],
    });
  } catch (error) {
    if (isErrno(error, 'ENOENT')) throw new Refusal('Git is not installed, or not where programs are looked for.');
    throw new Refusal(failing(saidBy(error)));
  }
}

function isErrno(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}

/** The last line that git wrote, without its mark and full stop. */
function saidBy(error: unknown): string {
  const said = error instanceof Error && 'stderr' in error ? String(error.stderr).trim() : '';
  const line = said.split('\n').find((each) => /^(fatal|error):/.test(each)) ?? said.split('\n').at(-1) ?? '';
  return (
    line.replace(/^(fatal|error): /, '').replace(/\.$/, '') || (error instanceof Error ? error.message : String(error))
  );
}

/** The nearest folder of a path that exists, itself if it is one: where git can be asked about it. */
export function standingFolder(path: string): string {
  if (path === '' || path === '/') return '/';
  const isFolder = statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
  return isFolder ? path : standingFolder(folderOf(path));
}
