// Starts a program that is one script, with V8's code cache beside it: most of a cold start is compiling.
import { accessSync, constants, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cachedDataVersionTag } from 'node:v8';
import { Script } from 'node:vm';
import zlib from 'node:zlib';

const SUM_BYTES = 4;

// Node before 20.15 has none; without a sum nothing is cached.
const crc32: ((data: Uint8Array) => number) | undefined = zlib.crc32;

type Program = (exports: object, require: NodeJS.Require, module: object, url: string) => void;

/**
 * Runs a script that the build wrapped into a function and named by its content.
 *
 * @param path the script, relative to `url`
 * @param url where the program seems to stand: the starting file
 * @param keeps whether this run compiles what later ones need, so that its code is worth keeping where none is
 */
export function start(path: string, url: string, keeps: boolean): void {
  const filename = fileURLToPath(new URL(path, url));
  // The tag tells the version of V8, its flags and the processor's features.
  const cache = `${filename}.${cachedDataVersionTag().toString(16)}.cache`;
  const cachedData = readCache(cache);
  // The build leaves nothing but ASCII in it, which is read fastest so.
  const script = new Script(readFileSync(filename, 'latin1'), { filename, ...(cachedData && { cachedData }) });
  const isCached = cachedData !== undefined && script.cachedDataRejected !== true;
  if (keeps && !isCached) process.once('exit', () => writeCache(cache, script));
  (script.runInThisContext() as Program)({}, createRequire(url), {}, url);
}

/** The cache, if it is whole: V8 trusts what it is given, and a single wrong bit can end the process. */
function readCache(path: string): Buffer | undefined {
  try {
    const bytes = readFileSync(path);
    const data = bytes.subarray(SUM_BYTES);
    return bytes.readUInt32LE() === crc32?.(data) ? data : undefined;
  } catch {
    return undefined;
  }
}

/** Whole or not at all. Where the program may not write it goes on without: a cache is no reason to fail. */
function writeCache(path: string, script: Script): void {
  if (crc32 === undefined) return;
  const unfinished = `${path}.${process.pid}`;
  try {
    accessSync(dirname(path), constants.W_OK);
    const data = script.createCachedData();
    const sum = Buffer.alloc(SUM_BYTES);
    sum.writeUInt32LE(crc32(data));
    writeFileSync(unfinished, Buffer.concat([sum, data]), { flag: 'wx' });
    renameSync(unfinished, path);
  } catch {
    remove(unfinished);
  }
}

function remove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // It lies in a folder that may not be written.
  }
}
