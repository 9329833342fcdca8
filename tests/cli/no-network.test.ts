import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { LspClient, StdioTransport, uriOf } from '../language/client.ts';

const ROOT = join(import.meta.dirname, '../..');
const WATCH = join(import.meta.dirname, 'no-network.cjs');
const WELL = 'samples/pad-a/qm-a1.yaml';

let scratch: string;
beforeEach(() => {
  scratch = mkdtempSync(join(tmpdir(), 'setproof-network-'));
});
afterEach(() => rmSync(scratch, { recursive: true, force: true }));

const log = () => join(scratch, 'log');
const calls = () => (existsSync(log()) ? readFileSync(log(), 'utf8') : '');
const watched = () => ({ ...process.env, NODE_OPTIONS: `--require ${WATCH}`, SETPROOF_NETWORK_LOG: log() });

function run(...args: string[]) {
  return spawnSync(process.execPath, args, { cwd: ROOT, encoding: 'utf8', env: watched() });
}

describe('no command reaches for the network', () => {
  test('the watch would see one that does', () => {
    expect(run('-e', "fetch('http://localhost:1')").status).not.toBe(0);
    expect(run('-e', "require('node:http').get('http://localhost:1')").status).not.toBe(0);
    expect(calls()).toMatch(/^fetch .*\nconnect /);
  });

  test.each([
    ['check', 'samples'],
    ['check', 'samples/with-mistakes', '--format', 'sarif'],
    ['worksheet', WELL, '--format', 'html'],
    ['checklist', WELL, '--format', 'html'],
    ['checklist', WELL, '--format', 'pdf'],
    ['checklist', WELL, '--format', 'field'],
    ['compare', WELL, 'samples/pad-a/qm-a2.yaml'],
    ['propose', WELL],
    ['tidy', WELL],
    ['checks'],
    ['new', 'installation'],
  ])('%s %s', (...args) => {
    const output = args[0] === 'checklist' ? ['--output', join(scratch, 'out')] : [];
    const { stderr, status } = run('dist/cli.js', ...args, ...output);
    expect(stderr).not.toContain('was called');
    expect(status).toBeLessThan(2);
    expect(calls()).toBe('');
  });

  test('nor does the language server', async () => {
    const before = { ...process.env };
    Object.assign(process.env, watched());
    const client = new LspClient(new StdioTransport());
    process.env = before;
    await client.initialize({ workspaceFolders: [{ uri: uriOf(join(ROOT, 'samples')), name: 'samples' }] });
    const uri = uriOf(join(ROOT, WELL));
    client.open(uri, readFileSync(join(ROOT, WELL), 'utf8'));
    await client.publication(uri);
    await client.request('textDocument/hover', { textDocument: { uri }, position: { line: 20, character: 4 } });
    await client.shutdown();
    expect(calls()).toBe('');
  });
});
