// A small invented site with one well, copied for each test that changes files.
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach } from 'vitest';
import { LspClient, StdioTransport, uriOf } from './client.ts';

const FIXTURE = fileURLToPath(new URL('fixtures/site', import.meta.url));
export const TODAY = '2026-11-25';
export const WELL = 'wells/a2-07.yaml';
export const TRANSFORMER = 'equipment/tx.yaml';
export const GOOD_TAP = '{ tap: 2, voltage: 900 V }';
/** 600 V is below what every case needs. */
export const LOW_TAP = '{ tap: 1, voltage: 600 V }';

export interface Site {
  readonly folder: string;
  path(file: string): string;
  uri(file: string): string;
  read(file: string): string;
  write(file: string, text: string): void;
  remove(file: string): void;
}

const cleanups: (() => void)[] = [];
afterEach(() => {
  for (const cleanup of cleanups.splice(0)) cleanup();
});

export function makeSite(): Site {
  const folder = mkdtempSync(join(tmpdir(), 'setproof-language-'));
  cleanups.push(() => rmSync(folder, { recursive: true, force: true }));
  cpSync(FIXTURE, folder, { recursive: true });
  const path = (file: string) => join(folder, file);
  return {
    folder,
    path,
    uri: (file) => uriOf(path(file)),
    read: (file) => readFileSync(path(file), 'utf8'),
    write: (file, text) => {
      mkdirSync(dirname(path(file)), { recursive: true });
      writeFileSync(path(file), text);
    },
    remove: (file) => rmSync(path(file)),
  };
}

/** A session over standard input and output, with the site as its workspace. */
export async function startClient(site: Site, options: Record<string, unknown> = {}): Promise<LspClient> {
  const client = new LspClient(new StdioTransport());
  cleanups.push(() => client.transport.stop());
  await client.initialize({
    workspaceFolders: [{ uri: uriOf(site.folder), name: 'site' }],
    initializationOptions: { today: TODAY, checkPages: 'file:///pages' },
    ...options,
  });
  return client;
}

/** Opens a file of the site, perhaps with another text, and gives what is published for it. */
export async function openFile(client: LspClient, site: Site, file: string, text = site.read(file)) {
  client.open(site.uri(file), text);
  return client.publication(site.uri(file), ({ version }) => version === 1);
}
