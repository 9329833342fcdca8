import { join } from 'node:path';
import { afterEach, expect, test, vi } from 'vitest';
import { makeFolder, PUMP, removeFolder, run, WELL } from './support.ts';

// The tests may run as root, whom no permission stops; so the system refuses here by itself what is called `locked`, and a policy in `sealed`.
vi.mock('node:fs', async (importOriginal) => {
  const fs = await importOriginal<typeof import('node:fs')>();
  const guarded =
    <A extends unknown[], R>(act: (...args: A) => R) =>
    (...args: A): R => {
      if (/locked|sealed\/setproof\.policy/.test(String(args[0])))
        throw Object.assign(new Error('no'), { code: 'EACCES' });
      return act(...args);
    };
  return { ...fs, openSync: guarded(fs.openSync), readdirSync: guarded(fs.readdirSync) };
});
const { check } = await import('../../server/src/commands/check.ts');

const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

function checked(files: Record<string, string>, ...paths: string[]) {
  const folder = makeFolder(files);
  folders.push(folder);
  return run(folder, (surroundings) => check({ paths }, surroundings));
}

test.each([
  ['a named file', ['locked.yaml'], 'locked.yaml'],
  ['a named folder', ['locked'], 'locked'],
  ['a folder on the way', [], 'locked'],
])('%s that cannot be read ends with 2 and says so', async (_, paths, name) => {
  const { status, err } = await checked(
    { 'locked.yaml': PUMP, [join('locked', 'a.yaml')]: PUMP, 'a.yaml': PUMP },
    ...paths,
  );
  expect(status).toBe(2);
  expect(err).toContain(`'${name}' was not checked: permission is denied.`);
});

test('a policy that cannot be read is not passed over', async () => {
  const { status, err } = await checked({ 'sealed/setproof.policy.yaml': '', 'sealed/a.yaml': PUMP }, 'sealed/a.yaml');
  expect(status).toBe(2);
  expect(err).toContain('setproof.policy.yaml');
});

test('a data sheet that cannot be read is a finding of its user', async () => {
  const well = WELL.replace('{ serial: P-1 }', '{ datasheet: locked.yaml }');
  const { status, out } = await checked({ 'a.yaml': well, 'locked.yaml': PUMP }, 'a.yaml');
  expect(status).toBe(1);
  expect(out).toContain("The file 'locked.yaml' cannot be read: permission is denied.");
});
