import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, describe, expect, test } from 'vitest';
import { type CheckArguments, check } from '../../server/src/commands/check.ts';
import { matchAccepted } from '../../server/src/commands/checking/accepted.ts';
import { FORMATS } from '../../server/src/commands/checking/setup.ts';
import type { CheckedFile } from '../../server/src/engine/index.ts';
import { writeWells } from '../bench/wells.mjs';
import { HOME, makeFolder, PUMP, type Ran, removeFolder, run, setproof, WELL } from './support.ts';

const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

function folderWith(files: Parameters<typeof makeFolder>[0] = {}, git = true): string {
  const folder = makeFolder(files, git);
  folders.push(folder);
  return folder;
}

function checked(folder: string, args: Partial<CheckArguments> = {}, around = {}): Promise<Ran> {
  return run(folder, (surroundings) => check({ paths: [], ...args }, surroundings), around);
}

async function asJson(folder: string, args: Partial<CheckArguments> = {}) {
  const ran = await checked(folder, { ...args, format: 'json' });
  return { ...ran, report: JSON.parse(ran.out) };
}

async function pathsIn(folder: string, args: Partial<CheckArguments> = {}): Promise<string[]> {
  return (await asJson(folder, args)).report.files.map(({ path }: { path: string }) => path);
}

const named = (name: string, rest = '') => `${WELL.replace('T-01', name).replace('P-1', `P-${name}`)}${rest}`;
const withSheet = (name: string) => named(name).replace('{ serial:', '{ datasheet: ../pumps/p.yaml, serial:');

describe('--changed-since', () => {
  function repository(): { folder: string; git: (...args: string[]) => void } {
    const folder = folderWith(
      {
        'pumps/p.yaml': PUMP,
        'wells/a.yaml': withSheet('A'),
        'wells/b.yaml': named('B'),
        'north/c.yaml': named('C'),
        'north/setproof.policy.yaml': 'document: policy/1\n',
      },
      false,
    );
    const git = (...args: string[]) =>
      void execFileSync('git', ['-c', 'user.name=t', '-c', 'user.email=t@example.invalid', ...args], { cwd: folder });
    git('init', '-q');
    git('add', '.');
    git('commit', '-qm', 'first');
    return { folder, git };
  }

  test('checks nothing where nothing changed, and says so', async () => {
    const { folder } = repository();
    const { status, out, err } = await checked(folder, { changedSince: 'HEAD' });
    expect(status).toBe(0);
    expect(out).toContain('0 files checked');
    expect(err).toContain("0 of 5 documents may differ since 'HEAD'");
  });

  test.each([
    ['wells/b.yaml', named('B', 'reservoir: {}\n'), ['wells/b.yaml']],
    ['pumps/p.yaml', `${PUMP}mass: 10 kg\n`, ['pumps/p.yaml', 'wells/a.yaml']],
    ['north/setproof.policy.yaml', 'document: policy/1\nlimits: {}\n', ['north/c.yaml', 'north/setproof.policy.yaml']],
    ['wells/new.yaml', named('N'), ['wells/new.yaml']],
  ])('checks after a change of %s what changed and what rests on it', async (name, text, expected) => {
    const { folder } = repository();
    writeFileSync(join(folder, name), text);
    expect(await pathsIn(folder, { changedSince: 'HEAD' })).toEqual(expected);
  });

  test('checks who used a data sheet that was taken away, and what a policy governed', async () => {
    const { folder } = repository();
    rmSync(join(folder, 'pumps/p.yaml'));
    rmSync(join(folder, 'north/setproof.policy.yaml'));
    expect(await pathsIn(folder, { changedSince: 'HEAD' })).toEqual(['north/c.yaml', 'wells/a.yaml']);
  });

  test('compares what changed with what did not', async () => {
    const { folder } = repository();
    writeFileSync(join(folder, 'wells/b.yaml'), named('A'));
    const { report } = await asJson(folder, { changedSince: 'HEAD' });
    const checks = report.files[0].findings.map((each: { check: string }) => each.check);
    expect(checks).toContain('identity.duplicate-well');
  });

  test('2 for a revision that there is not, and where there is no git', async () => {
    const { folder } = repository();
    expect((await checked(folder, { changedSince: 'nowhere' })).err).toContain("no revision 'nowhere'");
    const outside = await checked(folderWith({ 'a.yaml': WELL }, false), { changedSince: 'HEAD' });
    expect({ status: outside.status, words: outside.err.includes('no git repository') }).toEqual({
      status: 2,
      words: true,
    });
  });
});

describe('--shard', () => {
  const files = Object.fromEntries(Array.from({ length: 40 }, (_, at) => [`w/${at}.yaml`, named(`W${at}`)]));
  const shards = ['1/3', '2/3', '3/3'];

  test('parts make the whole, each document in one, with the same findings', async () => {
    const folder = folderWith(files);
    const whole = (await asJson(folder)).report.files;
    const parts = await Promise.all(shards.map(async (shard) => (await asJson(folder, { shard })).report.files));
    for (const part of parts) expect(part.length).toBeGreaterThan(3);
    const byPath = (a: { path: string }, b: { path: string }) => (a.path < b.path ? -1 : 1);
    expect(parts.flat().sort(byPath)).toEqual(whole);
  });

  test('a document stays in its part, whatever stands beside it and wherever one stands', async () => {
    const folder = folderWith(files);
    const before = await pathsIn(folder, { shard: '2/3' });
    writeFileSync(join(folder, 'w/more.yaml'), named('MORE'));
    expect((await pathsIn(folder, { shard: '2/3' })).filter((path) => !path.includes('more'))).toEqual(before);
    expect((await pathsIn(join(folder, 'w'), { shard: '2/3' })).map((path) => `w/${path}`)).toEqual(
      await pathsIn(folder, { shard: '2/3' }),
    );
  });

  test('an empty part is no failure', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    const all = await Promise.all(shards.map((shard) => checked(folder, { shard })));
    expect(all.map(({ status, err }) => [status, err])).toEqual(shards.map(() => [0, '']));
  });
});

describe('--accepted', () => {
  const bad = named('B', 'reservoir: { pressure: 78 }\n');
  const isList = new Ajv2020({ strict: false }).compile(
    JSON.parse(readFileSync(join(HOME, 'schemas/accepted-output.schema.json'), 'utf8')),
  );

  test('a list that was written lets the same findings pass, and no new ones', async () => {
    const folder = folderWith({ 'wells/a.yaml': bad });
    expect((await checked(folder)).status).toBe(1);
    expect((await checked(folder, { writeAccepted: 'wells/list.json' })).status).toBe(0);
    const list = JSON.parse(readFileSync(join(folder, 'wells/list.json'), 'utf8'));
    isList(list);
    expect(isList.errors).toBeNull();
    expect(list.findings).toEqual([{ file: 'a.yaml', key: 'reservoir.pressure', check: 'units.missing' }]);

    const { status, report } = await asJson(folder, { accepted: 'wells/list.json' });
    expect({ status, accepted: report.summary.accepted, errors: report.summary.errors }).toEqual({
      status: 0,
      accepted: 1,
      errors: 0,
    });
    writeFileSync(join(folder, 'wells/c.yaml'), named('C', 'reservoir: { pressure: 78 }\n'));
    expect((await checked(folder, { accepted: 'wells/list.json' })).status).toBe(1);
  });

  test.each([
    ['above its limit', 30, 40, 41, 39],
    ['below its limit', 50, 40, 39, 41],
  ])('of a value %s the worse counts, the better does not', (_, limit, value, worse, better) => {
    const entry = { path: 'a', key: 'k', check: 'x.y', case: 'target', value: { number: value, unit: 'A' } };
    const accepts = (number: number, unit = 'A', inCase = 'target') => {
      const measures = { value: { number, unit }, limit: { number: limit, unit } };
      const finding = { path: 'a', key: 'k', check: 'x.y', case: inCase, deviated: false, ...measures };
      const file = { document: { path: 'a' }, findings: [finding], statuses: new Map() } as unknown as CheckedFile;
      const { accepted, met } = matchAccepted(file, [entry]);
      return [accepted.size === 1, met.length === 1];
    };
    expect(accepts(value)).toEqual([true, true]);
    expect(accepts(better)).toEqual([true, true]);
    expect(accepts(worse)).toEqual([false, true]);
    expect(accepts(value, 'mA')).toEqual([false, true]);
    expect(accepts(value, 'A', 'pumped off')).toEqual([false, false]);
  });

  test('what is settled is named, and taken out when the list is written anew', async () => {
    const folder = folderWith({ 'a.yaml': bad, 'b.yaml': named('C', 'reservoir: { temperature: 7 }\n') });
    await checked(folder, { writeAccepted: 'list.json' });
    writeFileSync(join(folder, 'a.yaml'), named('B'));
    rmSync(join(folder, 'b.yaml'));
    const { out } = await checked(folder, { accepted: 'list.json' });
    expect(out).toContain("units.missing at 'reservoir.pressure' in a.yaml");
    expect(out).toContain("units.missing at 'reservoir.temperature' in b.yaml");
    const { report } = await asJson(folder, { accepted: 'list.json' });
    expect(report.settled.map(({ file }: { file: string }) => file)).toEqual(['a.yaml', 'b.yaml']);
    await checked(folder, { accepted: 'list.json', writeAccepted: 'list.json' });
    expect(JSON.parse(readFileSync(join(folder, 'list.json'), 'utf8')).findings).toEqual([]);
  });

  test('what a run did not look at is neither settled nor lost', async () => {
    const folder = folderWith({ 'a.yaml': bad, 'b.yaml': named('C', 'reservoir: { pressure: 7 }\n') });
    await checked(folder, { writeAccepted: 'list.json' });
    const before = readFileSync(join(folder, 'list.json'), 'utf8');
    const { report } = await asJson(folder, { accepted: 'list.json', paths: ['a.yaml'] });
    expect(report.settled).toEqual([]);
    await checked(folder, { accepted: 'list.json', writeAccepted: 'list.json', paths: ['a.yaml'] });
    expect(readFileSync(join(folder, 'list.json'), 'utf8')).toBe(before);
  });

  test.each([
    ['{', 'is no JSON'],
    ['{}', 'no list of accepted findings'],
    ['{"setproof_accepted":1,"findings":[{"file":"a"}]}', 'entry 1'],
    ['{"setproof_accepted":1,"findings":[{"file":"a","key":"","check":"x","value":3}]}', '"value"'],
  ])('2 for a list that is %s', async (text, words) => {
    const { status, err } = await checked(folderWith({ 'a.yaml': WELL, 'list.json': text }), { accepted: 'list.json' });
    expect(status).toBe(2);
    expect(err).toContain(words);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});

describe('arguments that make no sense', () => {
  test.each([
    [{ shard: '3/2' }, 'written as i/n'],
    [{ shard: '0/2' }, 'written as i/n'],
    [{ jobs: '0' }, 'whole number from 1'],
    [{ jobs: 'many' }, 'whole number from 1'],
    [{ accepted: 'none.json' }, "'none.json' cannot be read"],
    [{ writeAccepted: 'none/list.json' }, "'none/list.json' cannot be written"],
    [{ changedSince: '--output=x' }, 'no revision of git'],
  ])('%o: one message, and 2', async (args, words) => {
    const folder = folderWith({ 'a.yaml': WELL }, false);
    execFileSync('git', ['init', '-q'], { cwd: folder });
    const { status, err } = await checked(folder, args);
    expect(status).toBe(2);
    expect(err).toContain(words);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});

describe('many files', () => {
  test('give the same bytes with workers as without', () => {
    const folder = folderWith();
    writeWells(folder, 120);
    writeFileSync(join(folder, 'broken.yaml'), 'document: pump/1\nname: "never ends\n');
    const written = (jobs: string) => {
      const reports = FORMATS.flatMap((format) => ['--report', `${format}=${jobs}.${format}`]);
      const ran = setproof(folder, [
        'check',
        ...reports,
        '--output',
        '/dev/null',
        '--jobs',
        jobs,
        '--today',
        '2026-03-14',
      ]);
      expect({ status: ran.status, err: ran.err }).toEqual({ status: 1, err: '' });
      return FORMATS.map((format) => readFileSync(join(folder, `${jobs}.${format}`), 'utf8'));
    };
    const [one, three] = [written('1'), written('3')];
    for (const [at, text] of one.entries()) {
      expect(text.length).toBeGreaterThan(1000);
      expect(three[at] === text).toBe(true);
    }
  });

  test('a reader that goes away leaves nothing half-written', () => {
    const folder = folderWith();
    writeWells(folder, 60);
    const program = `"${process.execPath}" "${join(HOME, 'dist/cli.js')}" check --format json --report text=out.txt`;
    execFileSync('sh', ['-c', `${program} | head -c 10`], { cwd: folder });
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  test('an interrupt ends the run at once, with 130 and nothing half-written', async () => {
    const folder = folderWith();
    writeWells(folder, 600);
    const child = spawn(
      process.execPath,
      [join(HOME, 'dist/cli.js'), 'check', '--jobs', '2', '--output', 'out.txt', '--report', 'json=out.json'],
      { cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] },
    );
    let err = '';
    child.stderr.on('data', (chunk) => (err += chunk));
    while (!readdirSync(folder).some((name) => name.endsWith('.part')))
      await new Promise((next) => setTimeout(next, 20));
    child.kill('SIGINT');
    const [code] = await once(child, 'exit');
    expect(code).toBe(130);
    expect(err).toContain('Interrupted; no report was written.');
    expect(readdirSync(folder).filter((name) => name.includes('out.'))).toEqual([]);
  });
});

describe('progress', () => {
  test('goes to a terminal only', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    expect((await checked(folder)).err).toBe('');
  });
});
