import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** Writes files whole, each beside its place and then into it: whoever runs what stood there is not disturbed. */
export async function placeFiles(files) {
  await Promise.all(files.map(placeFile));
}

async function placeFile({ path, text, mode = 0o644 }) {
  await mkdir(dirname(path), { recursive: true });
  const before = await readFile(path, 'utf8').catch(() => undefined);
  if (before !== undefined && before !== text) await removeCaches(path);
  const unfinished = `${path}.${process.pid}`;
  await writeFile(unfinished, text, { mode });
  await rename(unfinished, path);
}

/** Caches of a script that is no more. */
async function removeCaches(path) {
  const names = await readdir(dirname(path));
  const caches = names.filter((name) => name.startsWith(`${basename(path)}.`) && name.endsWith('.cache'));
  await Promise.all(caches.map((name) => rm(join(dirname(path), name), { force: true })));
}

/** Removes from a folder what an earlier build left there, once nothing names it any more. */
export async function removeOthers(folder, files) {
  const kept = new Set(files.map(({ path }) => path));
  for (const entry of await readdir(folder, { withFileTypes: true, recursive: true })) {
    const path = join(entry.parentPath ?? entry.path, entry.name);
    const isUnfinished = /\.\d+$/.test(entry.name);
    if (!entry.isFile() || isUnfinished || kept.has(path.replace(/\.[\w-]+\.cache$/, ''))) continue;
    await rm(path, { force: true });
  }
}
