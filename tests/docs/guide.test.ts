import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const GUIDE = join(ROOT, 'docs/guide');
const pages = readdirSync(GUIDE).map((name) => join(GUIDE, name));
const documents = [...pages, ...['README.md', 'DEVELOPERS.md', 'docs/editors.md'].map((name) => join(ROOT, name))];

const scratches: string[] = [];
afterAll(() => {
  for (const scratch of scratches) rmSync(scratch, { recursive: true, force: true });
});

function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'setproof-guide-'));
  scratches.push(folder);
  return folder;
}

/** The demo field as a repository of its own, in which the commands of a page are run. */
function demoField(): string {
  const folder = scratchFolder();
  cpSync(join(ROOT, 'samples'), folder, { recursive: true });
  const author = ['-c', 'user.name=a', '-c', 'user.email=a@example.invalid'];
  for (const args of [
    ['init', '-q'],
    ['add', '.'],
    [...author, 'commit', '-qm', 'as given'],
  ]) {
    spawnSync('git', args, { cwd: folder });
  }
  return folder;
}

function run(command: string, folder: string): string {
  const shell = `setproof() { '${process.execPath}' '${join(ROOT, 'dist/cli.js')}' "$@"; }; ${command}`;
  const { stdout, stderr } = spawnSync('bash', ['-c', shell], { cwd: folder, encoding: 'utf8' });
  return stdout + stderr;
}

interface Session {
  readonly isEmpty: boolean;
  readonly steps: readonly { readonly command: string; readonly expected: string }[];
}

function sessionsOf(text: string): readonly Session[] {
  return [...text.matchAll(/^```console( in-an-empty-folder)?\n([\s\S]*?)^```/gm)].map(([, empty, block = '']) => ({
    isEmpty: empty !== undefined,
    steps: block.split(/^\$ /m).slice(1).map(stepOf),
  }));
}

function stepOf(part: string) {
  const [command = '', ...lines] = part.split('\n');
  return { command, expected: lines.join('\n').trimEnd() };
}

/** The lines in their order; `…` on a line of its own stands for any others. */
function pattern(expected: string): RegExp {
  const parts = expected
    .split(/^…$/m)
    .map((part) => part.replace(/^\n|\n$/g, '').replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  return new RegExp(`^\\s*${parts.join('[\\s\\S]*')}\\s*$`);
}

describe.each(pages)('%s', (path) => {
  it('shows what the program prints', () => {
    for (const { isEmpty, steps } of sessionsOf(readFileSync(path, 'utf8'))) {
      const folder = isEmpty ? scratchFolder() : demoField();
      for (const { command, expected } of steps) expect(run(command, folder), command).toMatch(pattern(expected));
    }
  });
});

describe.each(documents)('the links of %s', (path) => {
  it('lead somewhere', () => {
    const text = readFileSync(path, 'utf8').replace(/```[\s\S]*?```/g, '');
    const links = [...text.matchAll(/\]\((?!https?:)([^)#\s]+)/g)].map(([, link = '']) => link);
    expect(links.filter((link) => !existsSync(join(dirname(path), link)))).toEqual([]);
  });
});
