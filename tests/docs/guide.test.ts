import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const GUIDE = join(ROOT, 'docs/guide');
const COMMANDS = join(ROOT, 'docs/reference/commands.md');
const pages = [...readdirSync(GUIDE).map((name) => join(GUIDE, name)), join(ROOT, 'README.md'), COMMANDS];
const others = [
  'DEVELOPERS.md',
  'docs/editors.md',
  'docs/ci/README.md',
  'docs/reference/README.md',
  'samples/README.md',
];
const documents = [...pages, ...others.map((name) => join(ROOT, name))];

const scratches: string[] = [];
afterAll(() => {
  for (const scratch of scratches) rmSync(scratch, { recursive: true, force: true });
}, 60_000);

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

describe('the page of the commands', () => {
  it('has each command that the program offers', () => {
    const offered = run('setproof --help', ROOT).split('Commands:')[1]?.split('Examples:')[0] ?? '';
    const names = [...offered.matchAll(/^ {2}(\w+)/gm)].map(([, name]) => name);
    const told = [...readFileSync(COMMANDS, 'utf8').matchAll(/^\$ setproof (\w+) --help$/gm)].map(([, name]) => name);
    expect(names.length).toBeGreaterThan(5);
    expect(told).toEqual(names);
  });
});

describe('the pictures', () => {
  it('are as the program draws them', () => {
    const folder = scratchFolder();
    run(`node build/pictures.mjs --drawings --into '${folder}'`, ROOT);
    const drawn = readdirSync(folder);
    expect(drawn.length).toBeGreaterThan(5);
    for (const name of drawn) {
      const kept = readFileSync(join(ROOT, 'docs/pictures', name), 'utf8');
      expect(kept, `${name}; run: npm run pictures`).toBe(readFileSync(join(folder, name), 'utf8'));
    }
  });

  it('are shown somewhere, each of them', () => {
    const text = pages.map((path) => readFileSync(path, 'utf8')).join('\n');
    const shown = [...text.matchAll(/pictures\/([\w-]+\.\w+)/g)].map(([, name]) => name);
    expect([...new Set(shown)].sort()).toEqual(readdirSync(join(ROOT, 'docs/pictures')).sort());
  });
});

describe.each(documents)('the links of %s', (path) => {
  it('lead somewhere', () => {
    const text = readFileSync(path, 'utf8').replace(/```[\s\S]*?```/g, '');
    const links = [...text.matchAll(/\]\((?!https?:)([^)#\s]+)/g)].map(([, link = '']) => link);
    expect(links.filter((link) => !existsSync(join(dirname(path), link)))).toEqual([]);
  });
});
