import { FileSystemError, FileType, RelativePattern, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  FIND,
  type FindParams,
  type FindResult,
  READ,
  type ReadAnswer,
  type ReadParams,
  type ReadResult,
} from '../../../server/src/language/protocol.ts';

/** A little more than the server reads at most: enough for it to see that a text is too large. */
const MOST_BYTES = 1024 * 1024 + 64;
const MOST_FILES = 20_000;
const MOST_FOLDERS = 2_000;
const PATTERN = '**/*.{yaml,yml}';
const SKIPPED: ReadonlySet<string> = new Set(['node_modules', '.git']);

/** Answers the server's questions for files that it cannot reach itself: those of virtual workspaces and the browser. */
export function serveFiles(client: BaseLanguageClient): void {
  client.onRequest(
    READ,
    async ({ uris }: ReadParams): Promise<ReadResult> => ({ files: await Promise.all(uris.map(read)) }),
  );
  client.onRequest(FIND, ({ folder }: FindParams): Promise<FindResult> => find(folder));
}

async function read(uri: string): Promise<ReadAnswer> {
  try {
    const at = Uri.parse(uri);
    const { type } = await workspace.fs.stat(at);
    if ((type & FileType.File) === 0) return { unreadable: 'it is a folder' };
    const bytes = await workspace.fs.readFile(at);
    return { text: new TextDecoder('utf-8').decode(bytes.subarray(0, MOST_BYTES)) };
  } catch (error) {
    return isAbsence(error) ? { absent: true } : { unreadable: error instanceof Error ? error.message : String(error) };
  }
}

function isAbsence(error: unknown): boolean {
  return error instanceof FileSystemError && (error.code === 'FileNotFound' || error.code === 'FileNotADirectory');
}

async function find(folder: string): Promise<FindResult> {
  const at = Uri.parse(folder);
  const found = await workspace.findFiles(new RelativePattern(at, PATTERN), '**/node_modules/**', MOST_FILES);
  // A file system without a search of its own finds nothing; it can be walked.
  const uris = found.length > 0 ? found : await walk(at);
  return { uris: uris.map(String) };
}

async function walk(top: Uri): Promise<Uri[]> {
  const files: Uri[] = [];
  const folders = [top];
  for (let seen = 0; folders.length > 0 && seen < MOST_FOLDERS && files.length < MOST_FILES; seen++) {
    const folder = folders.pop() as Uri;
    for (const [name, type] of await entriesOf(folder)) {
      if (type === FileType.Directory && !SKIPPED.has(name)) folders.push(Uri.joinPath(folder, name));
      else if (type === FileType.File && /\.ya?ml$/.test(name)) files.push(Uri.joinPath(folder, name));
    }
  }
  return files;
}

async function entriesOf(folder: Uri): Promise<[string, FileType][]> {
  try {
    return await workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}
