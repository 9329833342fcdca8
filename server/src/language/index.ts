/** The only door to the language server. */
export { ClientFiles } from './client-files.ts';
export type { AskedFile, Files, LanguageHost } from './files.ts';
export { createServer } from './server.ts';
export type { MakeHost } from './session.ts';
export { isLocal } from './uris.ts';
