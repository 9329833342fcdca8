import { closeSync, constants, fstatSync, openSync } from 'node:fs';
import { readBytes } from './read.ts';
import { reasonOf } from './reasons.ts';

/** A filled form or a saved page with all that it carries is far smaller. */
const MOST_BYTES = 16 * 1024 * 1024;

/** Reads a file that came back from a visit, whole; `refused` says why it cannot be taken, in a clause. */
export function readFilledFile(path: string): { readonly bytes: Uint8Array } | { readonly refused: string } {
  try {
    return readOpen(openSync(path, constants.O_RDONLY | constants.O_NONBLOCK));
  } catch (error) {
    return { refused: reasonOf(error) };
  }
}

function readOpen(handle: number): ReturnType<typeof readFilledFile> {
  try {
    const status = fstatSync(handle);
    if (status.isDirectory()) return { refused: 'it is a folder' };
    if (!status.isFile()) return { refused: 'it is no regular file' };
    if (status.size > MOST_BYTES) return { refused: 'it is larger than 16 MiB, and no form or field page is' };
    return { bytes: readBytes(handle, status.size) };
  } finally {
    closeSync(handle);
  }
}
