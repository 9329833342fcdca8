/** The engine names files by decoded paths with `/`; the protocol by URIs. A path of another scheme keeps its scheme. */

const FILE = 'file://';

/** `file:///a%20b/c.yaml` as `/a b/c.yaml`, `file:///c%3A/x.yaml` as `c:/x.yaml`; other schemes decoded as they stand. */
export function toPath(uri: string): string {
  if (!uri.startsWith(FILE)) return decoded(uri);
  const path = decoded(uri.slice(FILE.length));
  if (/^\/[A-Za-z]:/.test(path)) return path.charAt(1).toLowerCase() + path.slice(2);
  return path.startsWith('/') ? path : `//${path}`;
}

/** The reverse of `toPath`, for files whose URI no client has told. */
export function toUri(path: string): string {
  const [, scheme = '', rest = ''] = /^([a-z][a-z0-9+.-]+:(?:\/\/[^/]*)?)(.*)$/i.exec(path) ?? [];
  // Without a path an authority names no folder.
  if (scheme !== '') return scheme + (encoded(rest) || '/');
  if (path.startsWith('//')) return `file:${encoded(path)}`;
  return `${FILE}${path.startsWith('/') ? '' : '/'}${encoded(path)}`;
}

/** Whether a path is that of a file on this machine, and no other scheme's. */
export function isLocal(path: string): boolean {
  return path.startsWith('/') || /^[a-z]:\//i.test(path);
}

function encoded(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
