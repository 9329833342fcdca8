import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CompareArguments, compare } from '../../server/src/commands/compare.ts';
import { HOME, makeFolder, PUMP, removeFolder, run, WELL } from './support.ts';

const folders: string[] = [];
afterAll(() => folders.forEach(removeFolder));

const compared = (folder: string, args: CompareArguments) => run(folder, (around) => compare(args, around));
const git = (folder: string, ...args: readonly string[]) =>
  execFileSync('git', ['-c', 'user.name=n', '-c', 'user.email=e@invalid', ...args], { cwd: folder, stdio: 'pipe' });
const commit = (folder: string) => {
  git(folder, 'add', '-A');
  git(folder, 'commit', '-qm', 'state');
};
const validate = new Ajv2020({ strict: false }).compile(
  JSON.parse(readFileSync(join(HOME, 'schemas/compare-output.schema.json'), 'utf8')),
);

function edit(folder: string, name: string, ...edits: readonly (readonly [string, string])[]): void {
  const path = join(folder, name);
  let text = readFileSync(path, 'utf8');
  for (const [from, to] of edits) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  writeFileSync(path, text);
}

function folderWith(files: Parameters<typeof makeFolder>[0], marked = true): string {
  const folder = makeFolder(files, marked);
  folders.push(folder);
  return folder;
}

interface Output {
  readonly summary: string;
  readonly documents: {
    path: string;
    change: string;
    summary: string;
    entries: { label: string; before?: { text: string }; after?: { text: string } }[];
    windows: { setpoint: string; before: { margin: { number: number } }; after: { margin: { number: number } } }[];
    sheets: { entry: string; after: { path: string } }[];
    findings: { change: string; check: string }[];
    values: { id: string }[];
    copyOf?: { path: string; entries: { label: string }[] };
    users?: { path: string; isAffected: boolean }[];
  }[];
}

describe('a pull request: a tap raised, a cable thinner in its data sheet, a well copied', () => {
  let folder = '';
  beforeAll(() => {
    folder = realpathSync(mkdtempSync(join(tmpdir(), 'setproof-pr-')));
    folders.push(folder);
    cpSync(join(HOME, 'samples'), folder, { recursive: true });
    git(folder, 'init', '-q');
    commit(folder);
    edit(folder, 'pad-a/qm-a1.yaml', ['tap: 3, voltage: 900 V', 'tap: 4, voltage: 1000 V']);
    edit(folder, 'equipment/cables/flat-16.yaml', ['16 mm2', '10 mm2'], ['1.15 ohm/km', '1.83 ohm/km']);
    cpSync(join(folder, 'pad-b/qm-b1.yaml'), join(folder, 'pad-b/qm-b9.yaml'));
    edit(folder, 'pad-b/qm-b9.yaml', ['well: QM-B1', 'well: QM-B9']);
  });

  const output = async (args: Partial<CompareArguments> = {}): Promise<Output> => {
    const { status, out } = await compared(folder, { paths: [], git: 'HEAD', format: 'json', ...args });
    expect(status).toBe(0);
    return JSON.parse(out);
  };

  test('JSON follows its schema and has the edited documents before those that they touch', async () => {
    const { documents } = await output();
    validate(await output());
    expect(validate.errors).toBeNull();
    const changes = documents.map(({ path, change }) => `${change} ${path}`);
    expect(changes.slice(0, 3)).toEqual([
      'changed pad-a/qm-a1.yaml',
      'added pad-b/qm-b9.yaml',
      'changed equipment/cables/flat-16.yaml',
    ]);
    expect(changes).toContain('affected pad-a/qm-a2.yaml');
  });

  test('the raised tap: entries, the margin of its window, the values behind it', async () => {
    const { documents } = await output();
    const well = documents.find(({ path }) => path === 'pad-a/qm-a1.yaml');
    expect(well?.entries.map(({ label, before, after }) => `${label}: ${before?.text} to ${after?.text}`)).toEqual([
      'setpoints.transformer.tap: 3 to 4',
      'setpoints.transformer.voltage: 900 V to 1000 V',
    ]);
    const window = well?.windows.find(({ setpoint }) => setpoint === 'setpoints.transformer.tap');
    // 100 V more on the tap; the thinner cable takes a part of it back.
    const gain = (window?.after.margin.number ?? 0) - (window?.before.margin.number ?? 0);
    expect(gain).toBeGreaterThan(0);
    expect(gain).toBeLessThan(100);
    expect(well?.values.map(({ id }) => id)).toContain('cable.voltage_drop');
    expect(well?.summary).toContain('2 entries changed, 2 of them setpoints; through equipment/cables/flat-16.yaml');
  });

  test('the data sheet lists every well that uses it, and each is compared through it', async () => {
    const { documents } = await output();
    const sheet = documents.find(({ path }) => path === 'equipment/cables/flat-16.yaml');
    const users = execFileSync('grep', ['-l', 'flat-16.yaml', '-r', 'pad-a', 'pad-b', 'pad-c'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(sheet?.users?.map(({ path }) => path)).toEqual(users.trim().split('\n').sort());
    for (const { path, isAffected } of sheet?.users ?? []) {
      expect(isAffected).toBe(true);
      const user = documents.find((each) => each.path === path);
      expect(user?.sheets.map((each) => each.after.path)).toContain('equipment/cables/flat-16.yaml');
    }
  });

  test('the copied well names its original and what differs; the original is told too', async () => {
    const { documents } = await output();
    const copy = documents.find(({ path }) => path === 'pad-b/qm-b9.yaml');
    expect(copy?.copyOf?.path).toBe('pad-b/qm-b1.yaml');
    expect(copy?.copyOf?.entries.map(({ label }) => label)).toEqual(['site.well']);
    const original = documents.find(({ path }) => path === 'pad-b/qm-b1.yaml');
    expect(original?.findings.map(({ check }) => check)).toContain('identity.duplicate-serial');
  });

  test('asked for one data sheet, its users come along and the rest stays out', async () => {
    const { documents } = await output({ paths: ['equipment/cables/flat-16.yaml'] });
    const paths = documents.map(({ path }) => path);
    expect(paths).toContain('pad-a/qm-a1.yaml');
    expect(paths).not.toContain('pad-b/qm-b9.yaml');
  });

  test('Markdown fits a comment, folds the details and defers to those who know', async () => {
    const { out } = await compared(folder, { paths: [], git: 'HEAD', format: 'markdown' });
    expect(out.length).toBeLessThan(60_000);
    expect(out).toContain('<details><summary>');
    expect(out).toContain('licensed practice');
    expect(out.match(/<details>/g)?.length).toBe(out.match(/<\/details>/g)?.length);
  });

  test('text leaves details out, and says so', async () => {
    const { out } = await compared(folder, { paths: [], git: 'HEAD' });
    expect(out).toContain('Not shown here: Bounds that moved');
    expect(Math.max(...out.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(100);
    // A number and its unit stay together where a cell is broken.
    expect(out).not.toMatch(/ {2,}(?:%|V|A|bar\(g\))(?: {2,}|$)/m);
  });

  test('two revisions say the same as a revision and the files, a moved well is the same well', async () => {
    const before = await output();
    commit(folder);
    const between = await output({ git: 'HEAD~1..HEAD' });
    expect(between.documents).toEqual(before.documents);
    expect((await output({ git: 'HEAD~1...HEAD' })).documents).toEqual(before.documents);
    git(folder, 'mv', 'pad-a/qm-a3.yaml', 'pad-a/renamed.yaml');
    const moved = (await output()).documents.find(({ path }) => path === 'pad-a/renamed.yaml');
    expect(moved?.change).toBe('changed');
    expect(moved?.entries).toEqual([]);
  });
});

describe('files and folders', () => {
  test('two files, whatever their names', async () => {
    const folder = folderWith({ 'a.yaml': WELL, 'b.yaml': WELL.replace('serial: P-1', 'serial: P-2') });
    const { status, out } = await compared(folder, { paths: ['a.yaml', 'b.yaml'] });
    expect(status).toBe(0);
    expect(out).toContain('b.yaml: 1 entry changed, no setpoint');
    expect(out).toMatch(/equipment\.pump\.serial +P-1 +P-2/);
  });

  test('two folders: changed, new and removed', async () => {
    const folder = folderWith({
      'old/a.yaml': WELL,
      'old/gone.yaml': PUMP,
      'new/a.yaml': WELL.replace('serial: P-1', 'serial: P-2'),
      'new/come.yaml': 'document: motor/1\nname: an invented motor\n',
    });
    const { out } = await compared(folder, { paths: ['old', 'new'], format: 'json' });
    validate(JSON.parse(out));
    expect(validate.errors).toBeNull();
    const { documents }: Output = JSON.parse(out);
    expect(documents.map(({ path, change }) => `${change} ${path}`)).toEqual([
      'changed new/a.yaml',
      'added new/come.yaml',
      'removed old/gone.yaml',
    ]);
  });

  test('the same is said to be the same', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    const { status, out } = await compared(folder, { paths: ['a.yaml', 'a.yaml'] });
    expect(status).toBe(0);
    expect(out).toContain('Nothing that is compared differs');
  });

  test('spelling only: counted, and listed when asked for', async () => {
    const text = (pressure: string) => `${WELL}reservoir: { pressure: ${pressure} }\n`;
    const folder = folderWith({ 'a.yaml': text('1000 psi(g)'), 'b.yaml': text('68.95 bar(g)') });
    const short = await compared(folder, { paths: ['a.yaml', 'b.yaml'] });
    expect(short.out).toContain('1 entry written differently, none changed');
    expect(short.out).not.toContain('1000 psi');
    const full = await compared(folder, { paths: ['a.yaml', 'b.yaml'], rewritten: true });
    expect(full.out).toContain('1000 psi(g)');
  });

  test('hostile names do nothing in any format', async () => {
    const hostile = '<img src=x onerror=1>|[a](http://b.invalid) `x` \\e[31m';
    const text = (name: string) =>
      WELL.replace('T-01', JSON.stringify(name)).replaceAll('target', JSON.stringify(hostile));
    const folder = folderWith({
      'a.yaml': text('A'),
      'b.yaml': text(`${hostile}\u001b[31m`).replace('P-1', '"<b>1</b>"'),
    });
    const write = async (format: CompareArguments['format']) =>
      (await compared(folder, { paths: ['a.yaml', 'b.yaml'], format })).out;
    const page = await write('html');
    expect(page).toContain("default-src 'none'");
    expect(page).not.toMatch(/<img|<b>1/);
    const comment = await write('markdown');
    expect(comment).not.toMatch(/<img|<b>1|[^\\]\[a[^\\]?\]\(http/);
    for (const out of [page, comment, await write('text'), await write('json')]) expect(out).not.toContain('\u001b');
  });
});

describe('2 and a reason', () => {
  test.each<readonly [string, Partial<CompareArguments>, string]>([
    ['one path', { paths: ['a.yaml'] }, 'Name two files'],
    ['an absent file', { paths: ['a.yaml', 'none.yaml'] }, "There is no file or folder 'none.yaml'"],
    ['a file and a folder', { paths: ['a.yaml', 'folder'] }, 'a file and a folder'],
    ['two kinds', { paths: ['a.yaml', 'pump.yaml'] }, 'only two of a kind'],
    ['no document', { paths: ['other.yaml', 'a.yaml'] }, 'is no document of Setproof'],
    ['no repository', { paths: [], git: 'HEAD' }, 'no git repository'],
  ])('%s', async (_, args, words) => {
    const folder = folderWith(
      { 'a.yaml': WELL, 'pump.yaml': PUMP, 'other.yaml': 'a: 1\n', 'folder/a.yaml': WELL },
      false,
    );
    const { status, out, err } = await compared(folder, { paths: [], ...args });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toContain(words);
  });

  test.each([
    ['nosuch', 'There is no revision'],
    ['--output=x', 'is no revision of git'],
    ['HEAD..--all', 'is no revision of git'],
    ['', 'is no revision of git'],
  ])('the revision %j', async (revision, words) => {
    const folder = folderWith({ 'a.yaml': WELL }, false);
    git(folder, 'init', '-q');
    commit(folder);
    const { status, err } = await compared(folder, { paths: [], git: revision });
    expect(status).toBe(2);
    expect(err).toContain(words);
  });

  test('a name that is on neither side', async () => {
    const folder = folderWith({ 'a.yaml': WELL }, false);
    git(folder, 'init', '-q');
    commit(folder);
    const { status, err } = await compared(folder, { paths: ['b.yaml'], git: 'HEAD' });
    expect(status).toBe(2);
    expect(err).toContain("There is no document 'b.yaml' on either side");
  });
});
