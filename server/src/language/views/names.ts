import { folderOf, isInside } from '../../engine/index.ts';

/** A path from the folder of the workspace that holds it; with several folders, from above them. */
export function nameIn(folders: readonly string[], path: string): string {
  const folder = folders.find((each) => isInside(path, each));
  if (folder === undefined) return path;
  const top = folders.length > 1 ? folderOf(folder) : folder;
  return path.slice(top.length).replace(/^\//, '');
}
