import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, openSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, describe, expect, test } from 'vitest';
import { type CheckArguments, check } from '../../server/src/commands/check.ts';
import { HOME, makeFolder, PUMP, type Ran, removeFolder, run, setproof, WELL } from './support.ts';

const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

function folderWith(files: Parameters<typeof makeFolder>[0], git = true): string {
  const folder = makeFolder(files, git);
  folders.push(folder);
  return folder;
}

function checked(folder: string, args: Partial<CheckArguments> = {}, around = {}): Promise<Ran> {
  return run(folder, (surroundings) => check({ paths: [], ...args }, surroundings), around);
}

interface JsonFinding {
  readonly check: string;
  readonly severity: string;
  readonly key: string;
  readonly range: { readonly start: { readonly line: number; readonly character: number } };
}
interface JsonFile {
  readonly path: string;
  readonly document: string;
  readonly findings: readonly JsonFinding[];
}

async function asJson(folder: string, args: Partial<CheckArguments> = {}) {
  const ran = await checked(folder, { ...args, format: 'json' });
  const report = JSON.parse(ran.out) as { files: JsonFile[]; summary: Record<string, number> };
  return { ...ran, report, found: report.files.flatMap(({ findings }) => findings) };
}

/** A well with a trip whose window cannot be known. */
const UNFINISHED = `${WELL}setpoints: { protection: { intake_pressure_low: { trip: 12 bar(g) } } }\n`;
const withReservoir = (line: string) => `${WELL}reservoir:\n  ${line}\n`;

describe('exit status', () => {
  test('0 for a file without an error', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    const { status, out, err } = await checked(folder, { paths: ['a.yaml'] });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('1 file checked: 0 errors');
  });

  test.each([
    ['a bare number', 'pressure: 78', 'units.missing'],
    ['a number with a comma, in block style', 'temperature: 1,850 K', 'units.thousands-separator'],
    ['an unknown key', 'pressur: 78 bar', 'document.unknown-key'],
  ])('1 for %s', async (_, line, id) => {
    const folder = folderWith({ 'a.yaml': withReservoir(line) });
    const { status, found } = await asJson(folder);
    expect(status).toBe(1);
    const [finding] = found.filter(({ severity }) => severity === 'error');
    expect(finding?.check).toBe(id);
    expect(finding?.range.start.line).toBe(9);
  });

  test('1 for a number with a comma in flow style, one error', async () => {
    const folder = folderWith({ 'a.yaml': `${WELL}well: { intake: { md: 1,850 m } }\n` });
    const { status, found } = await asJson(folder);
    expect(status).toBe(1);
    expect(found.filter(({ severity }) => severity === 'error')).toHaveLength(1);
  });

  test('1 for a data sheet that is not there, at the reference', async () => {
    const text = WELL.replace('{ serial: P-1 }', '{ datasheet: ../pumps/none.yaml }');
    const folder = folderWith({ 'wells/a.yaml': text });
    const { status, found } = await asJson(folder);
    expect(status).toBe(1);
    expect(found.map((each) => [each.check, each.key])).toContainEqual([
      'reference.not-found',
      'equipment.pump.datasheet',
    ]);
  });

  test.each([
    ['a binary file', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3), 'document.not-text'],
    ['text in another encoding', Buffer.from(`${WELL}# 5 °C\n`, 'latin1'), 'document.not-text'],
    ['UTF-16', Buffer.from(`\ufeff${WELL}`, 'utf16le'), 'document.not-text'],
    ['more than 1 MiB', `${WELL}# ${'x'.repeat(1024 * 1024)}\n`, 'document.too-large'],
  ])('1 for a named file that is %s', async (_, content, id) => {
    const folder = folderWith({ 'a.yaml': content });
    const { status, found } = await asJson(folder, { paths: ['a.yaml'] });
    expect(status).toBe(1);
    expect(found.map((each) => each.check)).toContain(id);
  });

  test('the place of a byte that is no UTF-8', async () => {
    const folder = folderWith({ 'a.yaml': Buffer.concat([Buffer.from('document: pump/1\nname: a'), Buffer.of(0xe9)]) });
    const { found } = await asJson(folder);
    expect(found[0]).toMatchObject({ check: 'document.not-text', range: { start: { line: 1, character: 7 } } });
  });

  test('0 below the severity that counts, 1 from it on', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    expect((await checked(folder, { failOn: 'error' })).status).toBe(0);
    expect((await checked(folder, { failOn: 'note' })).status).toBe(1);
  });

  test('2 for a path that is not there; the others are checked', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    const { status, out, err } = await checked(folder, { paths: ['none.yaml', 'a.yaml'] });
    expect(status).toBe(2);
    expect(err).toBe("setproof: 'none.yaml' was not checked: there is no such file or folder.\n");
    expect(out).toContain('1 file checked');
  });

  test('2 for a named file that is no document of ours; in a walk it is counted', async () => {
    const folder = folderWith({ 'other.yaml': 'name: workflow\non: push\n', 'a.yaml': WELL });
    const named = await checked(folder, { paths: ['other.yaml'] });
    expect(named.status).toBe(2);
    expect(named.err).toContain("'other.yaml' is no document of Setproof");
    const walked = await asJson(folder);
    expect(walked.status).toBe(0);
    expect(walked.report.summary).toMatchObject({ files: 1, ignored: 1 });
  });

  test('YAML of others that we would refuse does not stop a walk', async () => {
    const folder = folderWith({
      'a.yaml': WELL,
      'b.yaml': 'a: !Ref b\n---\nc: {{ d }}\n',
      'c.yaml': Uint8Array.of(0, 1),
    });
    const { status, report } = await asJson(folder);
    expect({ status, summary: report.summary }).toMatchObject({ status: 0, summary: { files: 1, ignored: 2 } });
  });

  test('a broken file that says it is ours is not passed over', async () => {
    const folder = folderWith({ 'a.yaml': 'document: pump/1\nname: "never ends\n' });
    expect((await checked(folder)).status).toBe(1);
  });

  test.each([{ 'notes.txt': 'text' }, { 'other.yaml': 'a: 1\n' }])('2 if there is no document, %o', async (files) => {
    const { status, err } = await checked(folderWith(files as Record<string, string>));
    expect(status).toBe(2);
    expect(err).toContain("There is no document of Setproof in '.'.");
  });

  test('2 for a pipe, at once', async () => {
    const folder = folderWith({});
    execFileSync('mkfifo', [join(folder, 'a.yaml')]);
    const { status, err } = await checked(folder, { paths: ['a.yaml'] });
    expect({ status, err }).toEqual({ status: 2, err: "setproof: 'a.yaml' was not checked: it is no regular file.\n" });
  });

  test('2 for a link that goes round in a circle', async () => {
    const folder = folderWith({});
    symlinkSync('b.yaml', join(folder, 'a.yaml'));
    symlinkSync('a.yaml', join(folder, 'b.yaml'));
    const { status, err } = await checked(folder, { paths: ['a.yaml'] });
    expect(status).toBe(2);
    expect(err).toContain('its symbolic links go round in a circle');
  });

  test.each([
    [{ today: '2026-02-30' }, 'no date'],
    [{ today: 'soon' }, 'no date'],
    [{ policy: 'none.yaml' }, "There is no policy 'none.yaml'"],
    [{ policy: 'a.yaml' }, "'a.yaml' is no policy"],
    [{ root: 'none' }, "The root 'none' is no folder"],
    [{ root: 'deeper', paths: ['a.yaml'] }, 'lies outside of the root'],
    [{ report: ['xml=x.xml'] }, 'FORMAT=FILE'],
    [{ report: ['json=x', 'text=x'] }, "Two reports would be written to 'x'"],
    [{ output: 'none/x.txt' }, "'none/x.txt' cannot be written"],
    [{ output: 'deeper' }, "'deeper' cannot be written: it is a folder"],
  ])('2 for %o', async (args, words) => {
    const folder = folderWith({ 'a.yaml': WELL, 'deeper/b.yaml': PUMP });
    const { status, err } = await checked(folder, args);
    expect(status).toBe(2);
    expect(err).toContain(words);
  });
});

describe('walk', () => {
  test('leaves out what the policy ignores, but not what is named', async () => {
    const folder = folderWith({
      'setproof.policy.yaml': 'document: policy/1\nignore: [archive/, old-*.yaml]\n',
      'archive/a.yaml': 'document: pump/1\n',
      'wells/old-b.yaml': 'document: pump/1\n',
      'wells/c.yaml': PUMP,
    });
    expect((await asJson(folder)).report.files.map(({ path }) => path)).toEqual([
      'setproof.policy.yaml',
      'wells/c.yaml',
    ]);
    expect((await asJson(folder, { paths: ['wells'] })).report.files.map(({ path }) => path)).toEqual(['wells/c.yaml']);
    expect((await checked(folder, { paths: ['archive/a.yaml'] })).status).toBe(1);
    expect((await asJson(folder, { paths: ['archive'] })).report.files.map(({ path }) => path)).toEqual([
      'archive/a.yaml',
    ]);
  });

  test('skips node_modules and .git, and takes a folder for what it is', async () => {
    const folder = folderWith({
      'node_modules/a.yaml': 'document: x\n',
      '.git/b.yaml': 'document: x\n',
      'd.yaml/e.yml': PUMP,
    });
    expect((await asJson(folder)).report.files.map(({ path }) => path)).toEqual(['d.yaml/e.yml']);
    expect((await asJson(folder, { paths: ['d.yaml'] })).status).toBe(0);
  });

  test('follows links inside the repository once, and none out of it', async () => {
    const outside = folderWith({ 'x.yaml': 'document: pump/1\n' });
    const folder = folderWith({ 'wells/a.yaml': WELL });
    symlinkSync('.', join(folder, 'wells/circle'));
    symlinkSync('a.yaml', join(folder, 'wells/again.yaml'));
    expect((await asJson(folder)).report.files.map(({ path }) => path)).toEqual(['wells/a.yaml']);
    symlinkSync(outside, join(folder, 'wells/out'));
    const { status, err, report } = await asJson(folder);
    expect(report.files.map(({ path }) => path)).toEqual(['wells/a.yaml']);
    expect(status).toBe(2);
    expect(err).toContain("'wells/out' was not checked: it is a link that leads out of the repository");
  });

  test('names files in one order, each once', async () => {
    const folder = folderWith({ 'b.yaml': PUMP, 'a.yaml': PUMP, 'B.yaml': PUMP, 'a/z.yaml': PUMP });
    const { report } = await asJson(folder, { paths: ['b.yaml', '.', 'a'] });
    expect(report.files.map(({ path }) => path)).toEqual(['B.yaml', 'a.yaml', 'a/z.yaml', 'b.yaml']);
  });
});

describe('root', () => {
  const referring = WELL.replace('{ serial: P-1 }', '{ datasheet: ../../pump.yaml }');
  const files = { 'pump.yaml': PUMP, 'site/wells/a.yaml': referring };
  const errors = async (folder: string, args: Partial<CheckArguments> = {}) =>
    (await asJson(folder, args)).found.filter(({ severity }) => severity === 'error').map((each) => each.check);

  test('is the nearest folder with a repository', async () => {
    expect(await errors(folderWith(files))).toEqual([]);
    expect(await errors(folderWith({ ...files, 'site/.git/x': '' }), { paths: ['site'] })).toEqual([
      'reference.outside-repository',
    ]);
  });

  test('is the nearest folder with a policy', async () => {
    const folder = folderWith({ ...files, 'site/setproof.policy.yaml': 'document: policy/1\n' });
    expect(await errors(folder)).toEqual(['reference.outside-repository']);
  });

  test('is else the working directory, or the parent of the folder', async () => {
    const folder = folderWith(files, false);
    expect(await errors(folder)).toEqual([]);
    expect(await errors(join(folder, 'site'))).toEqual(['reference.outside-repository']);
    const elsewhere = folderWith({}, false);
    expect(await errors(elsewhere, { paths: [join(folder, 'site/wells/a.yaml')] })).toEqual([
      'reference.outside-repository',
    ]);
  });

  test('is what is asked for', async () => {
    const folder = folderWith({ ...files, 'site/.git/x': '' });
    expect(await errors(folder, { root: '.', paths: ['site'] })).toEqual([]);
  });

  test('is not left through a link', async () => {
    const outside = folderWith({ 'pump.yaml': PUMP });
    const folder = folderWith({ 'wells/a.yaml': WELL.replace('{ serial: P-1 }', '{ datasheet: ../pump.yaml }') });
    symlinkSync(join(outside, 'pump.yaml'), join(folder, 'pump.yaml'));
    expect(await errors(folder, { paths: ['wells'] })).toEqual(['reference.outside-repository']);
  });
});

describe('policy', () => {
  test('a given one holds instead of the nearest', async () => {
    const folder = folderWith({
      'a.yaml': WELL,
      'strict.yaml': "document: policy/1\nchecks: { document.not-run: { set_aside: 'a draft' } }\n",
    });
    const { found } = await asJson(folder, { paths: ['a.yaml'], policy: 'strict.yaml' });
    expect(found.map((each) => each.check)).not.toContain('document.not-run');
  });
});

describe('reports', () => {
  const validate = new Ajv2020({ strict: false }).compile(
    JSON.parse(readFileSync(join(HOME, 'schemas/check-output.schema.json'), 'utf8')),
  );

  test('JSON follows its schema, whatever the documents hold', async () => {
    const folder = folderWith({
      'a.yaml': withReservoir('pressure: 78'),
      'b.yaml': 'document: "what is this?"\n',
      'c.yaml': Uint8Array.of(0xff, 0xfe),
      'd.yaml': PUMP,
      'e.yaml': '',
    });
    const { out } = await checked(folder, { paths: ['a.yaml', 'b.yaml', 'c.yaml', 'd.yaml'], format: 'json' });
    const report = JSON.parse(out);
    validate(report);
    expect(validate.errors).toBeNull();
    expect(report.files.map((file: JsonFile) => file.document)).toEqual([
      'installation/1',
      'unknown/0',
      'unknown/0',
      'pump/1',
    ]);
    expect(report.files[0].fingerprint).toMatch(/^sha256:[0-9a-f]{64}$/);
  });

  test('JSON of the samples follows its schema, with every check in one place', async () => {
    const { out } = await checked(HOME, { paths: ['samples'], root: 'samples', format: 'json' });
    const report = JSON.parse(out);
    validate(report);
    expect(validate.errors).toBeNull();
    for (const { checks, findings } of report.files) {
      const { passed, notApplicable, notRun, deviated, setAside } = checks;
      const named = [...passed, ...notApplicable, ...notRun, ...deviated, ...setAside].map(
        (each) => each.check ?? each,
      );
      expect(new Set(named).size).toBe(named.length);
      const open = findings
        .filter((each: { deviated?: boolean }) => !each.deviated)
        .map((each: JsonFinding) => each.check);
      for (const id of open) expect(named).not.toContain(id);
    }
  });

  test('JSON without a document is JSON all the same', async () => {
    const { status, report } = await asJson(folderWith({}));
    expect({ status, files: report.files, count: report.summary.files }).toEqual({ status: 2, files: [], count: 0 });
  });

  test('further reports go to files, whole, and nothing else is left there', async () => {
    const folder = folderWith({ 'a.yaml': withReservoir('pressure: 78') });
    mkdirSync(join(folder, 'out'));
    const { status, out } = await checked(folder, {
      output: 'out/a.txt',
      report: ['json=out/a.json', 'text=out/b.txt'],
    });
    expect({ status, out }).toEqual({ status: 1, out: '' });
    expect(readdirSync(join(folder, 'out'))).toEqual(['a.json', 'a.txt', 'b.txt']);
    validate(JSON.parse(readFileSync(join(folder, 'out/a.json'), 'utf8')));
    expect(validate.errors).toBeNull();
    expect(readFileSync(join(folder, 'out/a.txt'), 'utf8')).toBe(readFileSync(join(folder, 'out/b.txt'), 'utf8'));
  });

  if (!existsSync('/dev/full')) console.log('Not run: a full disk behind standard output, for there is no /dev/full.');
  test.skipIf(!existsSync('/dev/full'))('a full disk behind standard output is told in a line, and ends with 2', () => {
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [join(HOME, 'dist/cli.js'), 'check', 'samples'], {
      cwd: HOME,
      encoding: 'utf8',
      stdio: ['ignore', full, 'pipe'],
    });
    expect(stderr).toBe('setproof: Standard output cannot be written: there is no space left on the disk.\n');
    expect(status).toBe(2);
  });

  test('a device is written to, not replaced', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    expect((await checked(folder, { output: '/dev/null' })).status).toBe(0);
    expect(existsSync('/dev/null') && readFileSync('/dev/null', 'utf8')).toBe('');
  });

  test('text tells key, message, way out and place, in that order', async () => {
    const folder = folderWith({ 'wells/a.yaml': withReservoir('pressure: 1,850 bar') });
    const { out } = await checked(folder, { paths: ['wells/a.yaml'] });
    const order = [
      'reservoir.pressure  error',
      'can be read as',
      'Way out: ',
      'units.thousands-separator, wells/a.yaml:10:13',
    ];
    const places = order.map((words) => out.replace(/\n +/g, ' ').indexOf(words));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  test('text lists what was not run when asked', async () => {
    const folder = folderWith({ 'a.yaml': UNFINISHED });
    expect((await checked(folder)).out).not.toContain('not run: lacks');
    expect((await checked(folder, { show: ['not-run'] })).out).toContain('not run: lacks');
    const well = await checked(HOME, { paths: ['samples/pad-a/qm-a1.yaml'], show: ['passed'] });
    expect(well.out).toMatch(/^ {2}tap\.below-window passed, \S+ V inside$/m);
  });

  test('control characters of a document reach no terminal', async () => {
    const text = `${WELL}"\\e[2J\\u202e": 1\n`;
    const folder = folderWith({ 'a.yaml': text });
    for (const format of ['text', 'json'] as const) {
      const { out, status } = await checked(folder, { format });
      expect(status).toBe(1);
      expect(out).toMatch(/\\u001b\[2J/);
      expect(out).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]/);
    }
  });

  test('the same input gives the same bytes', async () => {
    const folder = folderWith({ 'b.yaml': withReservoir('pressure: 78'), 'a.yaml': WELL });
    for (const format of ['text', 'json'] as const) {
      expect((await checked(folder, { format })).out).toBe(
        (await checked(folder, { format, paths: ['b.yaml', 'a.yaml'] })).out,
      );
    }
  });
});

describe('colours', () => {
  const painted = async (args: Partial<CheckArguments>, around: object) =>
    (await checked(folderWith({ 'a.yaml': withReservoir('pressure: 78') }), args, around)).out.includes('<e>error</e>');

  test('on a terminal only, unless told otherwise', async () => {
    expect(await painted({}, { isTTY: true })).toBe(true);
    expect(await painted({}, {})).toBe(false);
    expect(await painted({}, { isTTY: true, env: { NO_COLOR: '1' } })).toBe(false);
    expect(await painted({ color: false }, { isTTY: true })).toBe(false);
    expect(await painted({ color: true }, { env: { NO_COLOR: '1' } })).toBe(true);
  });
});

describe('day', () => {
  const deviation = (until: string) =>
    `${withReservoir('pressure: 78')}deviations:\n  - { check: units.missing, reason: none, approved_by: me, until: ${until} }\n`;

  test('stands in for the clock: a deviation holds until its day', async () => {
    const folder = folderWith({ 'a.yaml': deviation('2026-03-20') });
    const at = async (today: string) => (await checked(folder, { today })).status;
    expect(await at('2026-03-20')).toBe(0);
    expect(await at('2026-03-21')).toBe(1);
    expect((await checked(folder)).status).toBe(0);
  });
});

describe('as a program', () => {
  test.each([
    [['check', '--format', 'xml'], 2],
    [['check', '--nonsense'], 2],
    [['check', '--show', 'all'], 2],
    [['check', '--fail-on', 'E'], 2],
    [['nonsense'], 2],
    [[], 2],
    [['worksheet'], 2],
    [['--help'], 0],
    [['check', '--help'], 0],
    [['--version'], 0],
    [['check', 'a.yaml'], 0],
    [['check', 'bad.yaml'], 1],
    [['check', 'none.yaml'], 2],
  ])('%o ends with %i', (args, status) => {
    const folder = folderWith({ 'a.yaml': WELL, 'bad.yaml': withReservoir('pressure: 78') });
    expect(setproof(folder, args).status).toBe(status);
  });

  test('says its version', () => {
    const { version } = JSON.parse(readFileSync(join(HOME, 'package.json'), 'utf8'));
    expect(setproof(HOME, ['--version']).out).toBe(`${version}\n`);
  });

  test('findings go to standard output, troubles to standard error', () => {
    const folder = folderWith({ 'bad.yaml': withReservoir('pressure: 78') });
    const { out, err } = setproof(folder, ['check', 'bad.yaml', 'none.yaml']);
    expect(out).toContain('units.missing');
    expect(err).toContain('none.yaml');
    expect(err).not.toContain('units.missing');
  });

  test('is coloured by --color', () => {
    const folder = folderWith({ 'bad.yaml': withReservoir('pressure: 78') });
    expect(setproof(folder, ['check', '--color']).out).toContain('\u001b[31merror');
    expect(setproof(folder, ['check']).out).not.toContain('\u001b');
  });
});
