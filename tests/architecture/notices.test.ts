import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');

test('the notices tell of every package that is bundled, each under a licence that lets us', () => {
  const { status, stderr } = spawnSync(process.execPath, ['build/notices.mjs', '--check'], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  expect(status).toBe(0);
});

test('they go with what is shipped', () => {
  const { files } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  expect(files).toContain('THIRD-PARTY-NOTICES.md');
  expect(readFileSync(join(ROOT, '.vscodeignore'), 'utf8')).toContain('!THIRD-PARTY-NOTICES.md');
});
