// The code cache makes a start fast, and whatever is wrong with it the program does what it does without.
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cachedDataVersionTag } from 'node:v8';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { HOME, makeFolder, removeFolder, WELL } from './support.ts';

const NOBODY = 65_534;
const TAG = cachedDataVersionTag().toString(16);

let site: string;
beforeEach(() => {
  site = makeFolder({ 'a.yaml': WELL, 'package.json': '{ "type": "module" }' });
  mkdirSync(join(site, 'dist/chunks'), { recursive: true });
  cpSync(join(HOME, 'dist/cli.js'), join(site, 'dist/cli.js'));
  for (const name of readdirSync(join(HOME, 'dist/chunks'))) {
    if (/^cli-\w+\.cjs$/.test(name)) cpSync(join(HOME, 'dist/chunks', name), join(site, 'dist/chunks', name));
  }
});
afterEach(() => {
  chmodSync(join(site, 'dist/chunks'), 0o755);
  removeFolder(site);
});

const chunks = () => readdirSync(join(site, 'dist/chunks')).sort();
const script = () => chunks().find((name) => name.endsWith('.cjs')) ?? '';
const cache = (tag = TAG) => join(site, 'dist/chunks', `${script()}.${tag}.cache`);

/** Who runs the tests may be allowed everything; then somebody else runs the program. */
function checkAs(uid?: number) {
  const as = uid === undefined ? {} : { uid, gid: uid };
  return spawnSync(process.execPath, ['dist/cli.js', 'check', 'a.yaml'], { cwd: site, encoding: 'utf8', ...as });
}

function expectToWork(ran: ReturnType<typeof checkAs>): void {
  expect({ status: ran.status, err: ran.stderr }).toEqual({ status: 0, err: '' });
  expect(ran.stdout).toContain('1 file checked');
}

describe('the code cache', () => {
  test('is made by the build', () => {
    expect(readdirSync(join(HOME, 'dist/chunks')).filter((name) => name.endsWith(`.${TAG}.cache`))).toHaveLength(2);
  });

  test('is made by the first check where none is, and by nothing less', () => {
    spawnSync(process.execPath, ['dist/cli.js', '--version'], { cwd: site });
    expect(chunks()).toEqual([script()]);
    expectToWork(checkAs());
    expect(chunks()).toEqual([script(), `${script()}.${TAG}.cache`]);
    const made = readFileSync(cache());
    expectToWork(checkAs());
    expect(readFileSync(cache()).equals(made)).toBe(true);
  });

  test('is left out where the program may not write', () => {
    chmodSync(site, 0o755);
    chmodSync(join(site, 'dist/chunks'), 0o555);
    expectToWork(checkAs(process.getuid?.() === 0 ? NOBODY : undefined));
    expect(chunks()).toEqual([script()]);
  });

  test.each<[string, (whole: Buffer) => Buffer]>([
    ['empty', () => Buffer.alloc(0)],
    ['garbage', () => Buffer.from('no cache at all, but long enough to be one')],
    ['cut off', (whole) => whole.subarray(0, whole.length >> 1)],
    ['wrong in a few bytes', (whole) => Buffer.from(whole).fill(0x5a, whole.length >> 1, (whole.length >> 1) + 64)],
  ])('is made anew where it is %s', (_, spoil) => {
    expectToWork(checkAs());
    const whole = readFileSync(cache());
    writeFileSync(cache(), spoil(whole));
    expectToWork(checkAs());
    expect(Math.abs(readFileSync(cache()).length - whole.length)).toBeLessThan(whole.length / 2);
    expect(chunks()).toHaveLength(2);
  });

  test('of another version is not looked at, and under the name of this version it is refused', () => {
    // A flag that V8 counts as part of its version.
    const other = ['--no-opt', 'dist/cli.js', 'check', 'a.yaml'];
    spawnSync(process.execPath, other, { cwd: site });
    const [foreign = ''] = chunks().filter((name) => name.endsWith('.cache'));
    expect(foreign).not.toContain(TAG);
    const bytes = readFileSync(join(site, 'dist/chunks', foreign));
    expectToWork(checkAs());
    writeFileSync(cache(), bytes);
    expectToWork(checkAs());
    expect(readFileSync(cache()).equals(bytes)).toBe(false);
  });
});
