/** The only door to the language server. */
export { ClientFiles } from './client-files.ts';
export type { AskedFile, Files, LanguageHost } from './files.ts';
export { createServer, type MakeHost } from './server.ts';
export { isLocal } from './uris.ts';
