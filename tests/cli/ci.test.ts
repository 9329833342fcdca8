import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { HOME, makeFolder, removeFolder, setproof, WELL } from './support.ts';

const CI = join(HOME, 'docs/ci');
const BAD = `${WELL}reservoir: { pressure: 78 }\n`;
let folder = '';
let tools = '';

function shell(command: string, args: readonly string[] = [], env: Readonly<Record<string, string>> = {}) {
  const ran = spawnSync(command, args, {
    cwd: folder,
    encoding: 'utf8',
    env: { PATH: `${tools}:${process.env.PATH}`, HOME: folder, ...env },
  });
  return { status: ran.status, out: ran.stdout, err: ran.stderr };
}

const git = (...args: string[]) =>
  shell('git', ['-c', 'user.name=t', '-c', 'user.email=t@example.invalid', '-c', 'commit.gpgsign=false', ...args]);

beforeAll(() => {
  folder = makeFolder({ 'a.yaml': WELL, 'b.yaml': WELL.replace('T-01', 'T-02').replace('P-1', 'P-2') }, false);
  tools = makeFolder({}, false);
  writeFileSync(join(tools, 'setproof'), `#!/bin/sh\nexec "${process.execPath}" "${HOME}/dist/cli.js" "$@"\n`);
  chmodSync(join(tools, 'setproof'), 0o755);
  git('init', '-q', '-b', 'main');
  git('add', '.');
  git('commit', '-qm', 'first');
});
afterAll(() => [folder, tools].forEach(removeFolder));

describe('the files for build services', () => {
  test.each(['github-actions.yml', 'gitlab-ci.yml'])('%s is YAML, and asks only for options that there are', (name) => {
    const text = readFileSync(join(CI, name), 'utf8');
    expect(parse(text)).toBeTypeOf('object');
    const { out } = setproof(HOME, ['check', '--help']);
    for (const line of text.split('\n').filter((each) => each.includes('setproof check'))) {
      for (const [option = ''] of line.slice(line.indexOf('setproof check')).matchAll(/--[a-z-]+/g))
        expect(out).toContain(option);
    }
  });

  test('run as they stand: the lines that check', () => {
    const lines = ['github-actions.yml', 'gitlab-ci.yml'].flatMap((name) =>
      readFileSync(join(CI, name), 'utf8')
        .split('\n')
        .flatMap((line) => /(?:npx )(setproof check .*)$/.exec(line)?.[1] ?? []),
    );
    expect(lines).toHaveLength(2);
    for (const line of lines) {
      const ran = shell('sh', ['-ec', `mkdir -p out\n${line}`], { CI_NODE_INDEX: '1', CI_NODE_TOTAL: '2' });
      expect({ line, status: ran.status, err: ran.err }).toEqual({ line, status: 0, err: '' });
    }
    expect(readdirSync(join(folder, 'out')).sort()).toEqual(['setproof.md', 'setproof.sarif', 'setproof.xml']);
  });

  test('name no place that packages come from', () => {
    for (const name of readdirSync(CI)) expect(readFileSync(join(CI, name), 'utf8')).not.toMatch(/registry|npmjs/i);
  });
});

describe('the hook', () => {
  test('stops a commit with an error, and lets one without go', () => {
    copyFileSync(join(CI, 'pre-commit'), join(folder, '.git/hooks/pre-commit'));
    chmodSync(join(folder, '.git/hooks/pre-commit'), 0o755);
    writeFileSync(join(folder, 'a.yaml'), BAD);
    git('add', 'a.yaml');
    const stopped = git('commit', '-qm', 'bad');
    expect(stopped.status).not.toBe(0);
    expect(stopped.err).toContain('The commit was stopped by setproof.');
    writeFileSync(join(folder, 'a.yaml'), `${WELL}# a remark\n`);
    git('add', 'a.yaml');
    expect(git('commit', '-qm', 'good').status).toBe(0);
  });
});

describe('the comment for a review', () => {
  test('tells what changed and what is found', () => {
    git('checkout', '-qb', 'change');
    writeFileSync(join(folder, 'a.yaml'), BAD);
    git('commit', '--no-verify', '-qam', 'change');
    const { status, out, err } = shell('sh', [join(CI, 'review-comment.sh'), 'main']);
    expect({ status, err: err.replace(/^setproof: 1 of .*\n/, '') }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^## Setproof: 1 error/);
    expect(out).toContain('reservoir');
    expect(out.length).toBeLessThan(65_536);
  });

  test('ends with 2 where a revision is missing', () => {
    expect(shell('sh', [join(CI, 'review-comment.sh'), 'nowhere']).status).toBe(2);
  });
});

describe('the package', () => {
  test('runs where nothing else is installed', () => {
    const [packed] = JSON.parse(
      execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--offline', '--pack-destination', tools], {
        cwd: HOME,
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      }),
    );
    const names = packed.files.map(({ path }: { path: string }) => path);
    expect(names).toEqual(expect.arrayContaining(['dist/cli.js', 'dist/check-worker.js', 'dist/language-server.js']));
    expect(names.filter((name: string) => /^(server|tests|client|dist\/types)\//.test(name))).toEqual([]);
    const site = makeFolder({ 'a.yaml': WELL });
    try {
      mkdirSync(join(site, 'node_modules/.bin'), { recursive: true });
      execFileSync('tar', ['xzf', join(tools, packed.filename), '-C', join(site, 'node_modules')]);
      symlinkSync('../package/dist/cli.js', join(site, 'node_modules/.bin/setproof'));
      const ran = spawnSync(process.execPath, ['node_modules/.bin/setproof', 'check', '--jobs', '2'], {
        cwd: site,
        encoding: 'utf8',
      });
      expect({ status: ran.status, err: ran.stderr }).toEqual({ status: 0, err: '' });
      expect(ran.stdout).toContain('1 file checked');
    } finally {
      removeFolder(site);
    }
  });
});
