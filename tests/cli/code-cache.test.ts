// The code cache makes a start fast, and whatever is wrong with it the program does what it does without.
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cachedDataVersionTag } from 'node:v8';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { HOME, makeFolder, removeFolder, WELL } from './support.ts';

const NOBODY = 65_534;
const TAG = cachedDataVersionTag().toString(16);

let site: string;
const parts = () => join(site, 'dist/chunks/cli');
beforeEach(() => {
  site = makeFolder({ 'a.yaml': WELL, 'package.json': '{ "type": "module" }' });
  mkdirSync(parts(), { recursive: true });
  for (const name of ['cli.js', 'package.json']) cpSync(join(HOME, 'dist', name), join(site, 'dist', name));
  for (const name of readdirSync(join(HOME, 'dist/chunks/cli'))) {
    if (name.endsWith('.cjs')) cpSync(join(HOME, 'dist/chunks/cli', name), join(parts(), name));
  }
});
afterEach(() => {
  chmodSync(parts(), 0o755);
  removeFolder(site);
});

const caches = () => readdirSync(parts()).filter((name) => name.endsWith('.cache'));
/** The part that takes most of a start: the engine. */
const engine = () => caches().reduce((a, b) => (statSync(at(a)).size > statSync(at(b)).size ? a : b));
const at = (name: string) => join(parts(), name);

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
  test.each(['cli', 'language-server'])('of %s is made by the build', (program) => {
    const names = readdirSync(join(HOME, 'dist/chunks', program));
    expect(names.some((name) => name.endsWith(`-${TAG}.cache`))).toBe(true);
  });

  test('is made by the first check where none is, and by nothing less', () => {
    spawnSync(process.execPath, ['dist/cli.js', '--version'], { cwd: site });
    expect(caches()).toEqual([]);
    expectToWork(checkAs());
    const made = new Map(caches().map((name) => [name, readFileSync(at(name))]));
    expect(made.size).toBeGreaterThan(2);
    expect([...made.keys()].every((name) => name.endsWith(`.cjs.check-${TAG}.cache`))).toBe(true);
    expectToWork(checkAs());
    expect(caches()).toEqual([...made.keys()]);
    expect(readFileSync(at(engine())).equals(made.get(engine())!)).toBe(true);
  });

  test('is left out where the program may not write', () => {
    chmodSync(site, 0o755);
    chmodSync(parts(), 0o555);
    expectToWork(checkAs(process.getuid?.() === 0 ? NOBODY : undefined));
    expect(caches()).toEqual([]);
  });

  test.each<[string, (whole: Buffer) => Buffer]>([
    ['empty', () => Buffer.alloc(0)],
    ['garbage', () => Buffer.from('no cache at all, but long enough to be one')],
    ['cut off', (whole) => whole.subarray(0, whole.length >> 1)],
    ['wrong in a few bytes', (whole) => Buffer.from(whole).fill(0x5a, whole.length >> 1, (whole.length >> 1) + 64)],
  ])('is made anew where it is %s', (_, spoil) => {
    expectToWork(checkAs());
    const names = caches();
    const path = at(engine());
    const whole = readFileSync(path);
    writeFileSync(path, spoil(whole));
    expectToWork(checkAs());
    expect(Math.abs(readFileSync(path).length - whole.length)).toBeLessThan(whole.length / 2);
    expect(caches()).toEqual(names);
  });

  test('of another version is not looked at, and under the name of this version it is refused', () => {
    // A flag that V8 counts as part of its version.
    spawnSync(process.execPath, ['--no-opt', 'dist/cli.js', 'check', 'a.yaml'], { cwd: site });
    const foreign = engine();
    expect(foreign).not.toContain(TAG);
    const bytes = readFileSync(at(foreign));
    expectToWork(checkAs());
    const own = at(foreign.replace(/\w+\.cache$/, `${TAG}.cache`));
    writeFileSync(own, bytes);
    expectToWork(checkAs());
    expect(readFileSync(own).equals(bytes)).toBe(false);
  });
});
