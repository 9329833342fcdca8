import { closeSync, existsSync, openSync, renameSync, rmSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Files that are being written; a program that is ended meanwhile leaves none of them. */
const unfinished = new Set<WholeFile>();
process.on('exit', () => {
  for (const file of unfinished) file.abandon();
});

/** A file that is there whole or not at all: it is written beside its place and moved there at the end. */
export class WholeFile {
  readonly #path: string;
  /** Undefined for a device or a pipe, which is written to directly: it must not be replaced by a file. */
  readonly #beside: string | undefined;
  readonly #handle: number;
  #isOpen = true;

  /** @throws Error of the system, where the file cannot be made */
  constructor(path: string) {
    this.#path = path;
    this.#beside = isSpecial(path) ? undefined : join(dirname(path), `.${basename(path)}.${process.pid}.part`);
    this.#handle = openSync(this.#beside ?? path, this.#beside === undefined ? 'w' : 'wx');
    unfinished.add(this);
  }

  write(text: string | Uint8Array): void {
    const bytes = typeof text === 'string' ? Buffer.from(text) : text;
    for (let at = 0; at < bytes.length; ) at += writeSync(this.#handle, bytes, at);
  }

  finish(): void {
    this.#close();
    if (this.#beside === undefined) return;
    try {
      renameSync(this.#beside, this.#path);
    } catch (error) {
      rmSync(this.#beside, { force: true });
      throw error;
    }
  }

  /** Leaves nothing behind, unless it is finished. */
  abandon(): void {
    if (!this.#isOpen) return;
    this.#close();
    if (this.#beside !== undefined) rmSync(this.#beside, { force: true });
  }

  #close(): void {
    this.#isOpen = false;
    unfinished.delete(this);
    closeSync(this.#handle);
  }
}

/** Writes a text to a file, whole or not at all. @throws Error of the system */
export function writeWhole(path: string, text: string): void {
  const file = new WholeFile(path);
  try {
    file.write(text);
  } catch (error) {
    file.abandon();
    throw error;
  }
  file.finish();
}

/** Writes a file that must not be there yet. @throws Error of the system, with the code `EEXIST` if it is */
export function writeNew(path: string, text: string): void {
  writeFileSync(path, text, { flag: 'wx' });
}

function isSpecial(path: string): boolean {
  if (!existsSync(path)) return false;
  const status = statSync(path);
  if (status.isDirectory()) throw Object.assign(new Error('it is a folder'), { code: 'EISDIR' });
  return !status.isFile();
}
