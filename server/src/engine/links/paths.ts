/** Folder of a path with `/`; the empty text for a bare file name. */
export function folderOf(path: string): string {
  const slash = path.lastIndexOf('/');
  return slash < 0 ? '' : path.slice(0, slash);
}

/** A reference resolved against the folder of the document that makes it; `.` and `..` taken out. */
export function resolvePath(from: string, reference: string): string {
  const absolute = reference.startsWith('/');
  const base = absolute ? [] : folderOf(from).split('/');
  const steps: string[] = absolute ? [''] : base;
  for (const step of reference.split('/')) {
    if (step === '..' && steps.length > 0 && steps.at(-1) !== '..') steps.pop();
    else if (step !== '.' && step !== '') steps.push(step);
  }
  return steps.join('/');
}

/** Whether a path lies in a folder, or is it. */
export function isInside(path: string, folder: string): boolean {
  if (folder === '') return !path.startsWith('/') && !path.startsWith('../');
  return path === folder || path.startsWith(folder === '/' ? folder : `${folder}/`);
}

/** The folders from that of a path up to the root, nearest first. */
export function foldersUp(path: string, root: string): readonly string[] {
  const folders: string[] = [];
  let folder = folderOf(path);
  while (isInside(folder, root)) {
    folders.push(folder);
    if (folder === root || folder === '') break;
    folder = folderOf(folder);
  }
  return folders;
}
