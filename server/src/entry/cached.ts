// Starts a program from scripts, with V8's code cache beside each: most of a cold start is compiling.
import { accessSync, constants, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { cachedDataVersionTag } from 'node:v8';
import { Script } from 'node:vm';
import zlib from 'node:zlib';

const SUM_BYTES = 4;

// Node before 20.15 has none; without a sum nothing is cached.
const crc32: ((data: Uint8Array) => number) | undefined = zlib.crc32;

type Part = (exports: object, require: (id: string) => unknown, module: { exports: object }, url: string) => void;

/**
 * Runs a program whose parts the build wrapped into functions and named by their content. Each part loads those that it
 * imports by `require('./NAME')`.
 *
 * @param folder where the parts stand, relative to the starting file
 * @param entry name of the first part
 * @param command whose caches are looked at: each command is best off with the code that it runs itself, and no more
 * @param keeps whether this run is one of that command, so that its code is worth keeping where none is
 */
export function start(folder: string, entry: string, command: string, keeps: boolean): void {
  const home = join(__dirname, folder);
  const url = pathToFileURL(__filename).href;
  const loaded = new Map<string, { exports: object }>();
  const uncached = new Map<string, Script>();
  const load = (name: string): object => {
    const known = loaded.get(name);
    if (known !== undefined) return known.exports;
    const module = { exports: {} };
    loaded.set(name, module);
    partAt(join(home, name), command, uncached)(module.exports, requireFrom, module, url);
    return module.exports;
  };
  const requireFrom = (id: string): unknown => (id.startsWith('./') ? load(id.slice(2)) : require(id));
  // What the run compiles on its way belongs into the cache too.
  if (keeps) process.once('exit', () => writeCaches(uncached));
  load(entry);
}

/** A part of the program; it is noted by the path of its cache where that is missing. */
function partAt(filename: string, command: string, uncached: Map<string, Script>): Part {
  // The tag tells the version of V8, its flags and the processor's features.
  const cache = `${filename}.${command}-${cachedDataVersionTag().toString(16)}.cache`;
  const cachedData = readCache(cache);
  // The build leaves nothing but ASCII in it, which is read fastest so.
  const script = new Script(readFileSync(filename, 'latin1'), { filename, ...(cachedData && { cachedData }) });
  const isCached = cachedData !== undefined && script.cachedDataRejected !== true;
  if (!isCached) uncached.set(cache, script);
  return script.runInThisContext() as Part;
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

function writeCaches(scripts: ReadonlyMap<string, Script>): void {
  for (const [path, script] of scripts) writeCache(path, script);
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
