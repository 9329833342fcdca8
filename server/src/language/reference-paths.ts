import { folderOf, quoted } from '../engine/index.ts';

/** A path as it is written in a document: from the document's folder on. */
export function relativePath(from: string, to: string): string {
  const here = folderOf(from).split('/');
  const there = to.split('/');
  let common = 0;
  while (common < here.length && here[common] === there[common]) common++;
  return [...here.slice(common).map(() => '..'), ...there.slice(common)].join('/');
}

/** A path as a YAML scalar: in quotes where it would be read as something else. */
export function pathAsScalar(path: string): string {
  return /^[\w.-][\w./ @+=~-]*$/.test(path) && !path.endsWith(' ') ? path : quoted(path);
}
