import { relative, resolve, sep } from 'node:path';

/** A path as the engine wants it, whatever the system writes between folders. */
export function withSlashes(path: string): string {
  return sep === '/' ? path : path.replaceAll(sep, '/');
}

/** A name from the command line as an absolute path with `/`. */
export function absolutePath(cwd: string, name: string): string {
  return withSlashes(resolve(cwd, name));
}

/** A path as seen from a folder, with `/`; `.` for the folder itself. */
export function relativePath(folder: string, path: string): string {
  return withSlashes(relative(folder, path)) || '.';
}
