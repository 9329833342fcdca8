const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'it is on a disk that cannot be written to',
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'a part of its path is no folder',
  EISDIR: 'it is a folder',
  ELOOP: 'its symbolic links go round in a circle',
  ENAMETOOLONG: 'its name is too long',
  ENOSPC: 'there is no space left on the disk',
  EMFILE: 'too many files are open',
  EEXIST: 'it is there already',
};

/** Why the system refused something, in words. */
export function reasonOf(error: unknown): string {
  const code = codeOf(error);
  return (code && REASONS[code]) ?? code ?? String(error);
}

export function isAbsence(error: unknown): boolean {
  const code = codeOf(error);
  return code === 'ENOENT' || code === 'ENOTDIR';
}

function codeOf(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
}
