import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { decodeUtf8 } from './decode.ts';
import { isAbsence, reasonOf } from './reasons.ts';

/** A little more than the engine reads at most: enough for it to see that the text is too large. */
const MOST_BYTES = 1024 * 1024 + 64;

/** What reading a path gave. */
export type FileReading =
  | { readonly text: string }
  | { readonly absent: true }
  /** Why it cannot be read, in words. */
  | { readonly unreadable: string };

/** Reads a file as text, never more of it than the engine takes. Never throws. */
export function readTextFile(path: string): FileReading {
  try {
    return readOpen(openSync(path, constants.O_RDONLY | constants.O_NONBLOCK));
  } catch (error) {
    return isAbsence(error) ? { absent: true } : { unreadable: reasonOf(error) };
  }
}

function readOpen(handle: number): FileReading {
  try {
    const status = fstatSync(handle);
    if (status.isDirectory()) return { unreadable: 'it is a folder' };
    // A pipe or a device may never end.
    if (!status.isFile()) return { unreadable: 'it is no regular file' };
    return { text: decodeUtf8(readBytes(handle, Math.min(status.size, MOST_BYTES))) };
  } finally {
    closeSync(handle);
  }
}

/** The first bytes of an open file; fewer where it is shorter by now. */
export function readBytes(handle: number, size: number): Uint8Array {
  const bytes = Buffer.allocUnsafe(size);
  let filled = 0;
  while (filled < size) {
    const count = readSync(handle, bytes, filled, size - filled, null);
    if (count === 0) break;
    filled += count;
  }
  return bytes.subarray(0, filled);
}
