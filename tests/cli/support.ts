import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { Surroundings } from '../../server/src/commands/surroundings.ts';

/** The repository of the project itself. */
export const HOME = join(import.meta.dirname, '../..');
export const TODAY = '2026-03-14';

/** A folder with files, at a place of its own; `git` marks it as a repository. */
export function makeFolder(files: Readonly<Record<string, string | Uint8Array>>, git = true): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'setproof-')));
  if (git) mkdirSync(join(folder, '.git'));
  for (const [name, content] of Object.entries(files)) {
    const path = join(folder, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
  }
  return folder;
}

export function removeFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
}

export interface Ran {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command in this process, in a folder. */
export async function run(
  folder: string,
  command: (surroundings: Surroundings) => Promise<number>,
  around: Partial<Surroundings> & { readonly isTTY?: boolean } = {},
): Promise<Ran> {
  let out = '';
  let err = '';
  const mark = (name: string) => (text: string) => `<${name}>${text}</${name}>`;
  const status = await command({
    cwd: folder,
    stdout: { isTTY: around.isTTY, write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
    env: {},
    today: TODAY,
    colours: { strong: mark('b'), faint: mark('i'), error: mark('e'), warning: mark('w'), note: mark('n') },
    ...around,
  });
  return { status, out, err };
}

/** Runs the built command line as a person would. */
export function setproof(folder: string, args: readonly string[], env: Readonly<Record<string, string>> = {}): Ran {
  const ran = spawnSync(process.execPath, [join(HOME, 'dist/cli.js'), ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: { PATH: process.env.PATH ?? '', ...env },
  });
  return { status: ran.status ?? -1, out: ran.stdout, err: ran.stderr };
}

/** A small installation without an error. */
export const WELL = `document: installation/1
site: { well: T-01 }
lift: linear
equipment:
  pump: { serial: P-1 }
operation:
  cases:
    - { name: target, intake: flowing }
`;

export const PUMP = 'document: pump/1\nname: an invented pump\n';
