// Whatever bytes stand in a file, or whatever becomes of it meanwhile: one clear answer.
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { check } from '../../server/src/commands/check.ts';
import { checklist } from '../../server/src/commands/checklist.ts';
import { worksheet } from '../../server/src/commands/worksheet.ts';
import { SAMPLES } from '../support/project.ts';
import { HOME, makeFolder, removeFolder, run, WELL } from './support.ts';

const vanishing = vi.hoisted(() => ({ path: '' }));
// A file that somebody removes between the walk and the reading.
vi.mock('node:fs', async (importOriginal) => {
  const fs = await importOriginal<typeof import('node:fs')>();
  const openSync: typeof fs.openSync = (path, ...rest) => {
    if (vanishing.path !== '' && String(path).endsWith(vanishing.path)) fs.rmSync(path, { force: true });
    return fs.openSync(path, ...rest);
  };
  return { ...fs, openSync };
});

const folders: string[] = [];
afterEach(() => {
  vanishing.path = '';
  folders.splice(0).forEach(removeFolder);
});

function folderWith(files: Parameters<typeof makeFolder>[0]): string {
  const folder = makeFolder(files);
  folders.push(folder);
  return folder;
}

async function found(files: Parameters<typeof makeFolder>[0], path = 'a.yaml') {
  const folder = folderWith(files);
  const { status, out } = await run(folder, (around) => check({ paths: [path], format: 'json' }, around));
  const findings: readonly { check: string; severity: string; message: string }[] = JSON.parse(out).files[0].findings;
  return { status, errors: findings.filter(({ severity }) => severity === 'error'), findings };
}

const lines = (count: number, line: (at: number) => string) =>
  Array.from({ length: count }, (_, at) => line(at)).join('');
const bytes = (...values: readonly number[]) => Uint8Array.from(values);
const utf16 = (mark: readonly number[], swap: boolean) => {
  const text = Buffer.from(WELL, 'utf16le');
  return Buffer.concat([bytes(...mark), swap ? text.swap16() : text]);
};

describe('what cannot be read as text is one error', () => {
  test.each<readonly [string, Uint8Array | string, string]>([
    ['UTF-16, low byte first', utf16([0xff, 0xfe], false), 'The byte FF (hexadecimal) here is not UTF-8.'],
    ['UTF-16, high byte first', utf16([0xfe, 0xff], true), 'The byte FE (hexadecimal) here is not UTF-8.'],
    ['UTF-16 without a mark', utf16([], false), 'The character U+0000 has no place in a text.'],
    ['Latin-1', Buffer.from(`${WELL}x_a: Gr\u00f6\u00dfe\n`, 'latin1'), 'The byte F6 (hexadecimal) here is not UTF-8.'],
    ['a picture', bytes(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13), 'The byte 89 (hexadecimal)'],
    ['NUL', `${WELL}x_a: \0\n`, 'The character U+0000 has no place in a text.'],
    ['half a surrogate pair', Buffer.concat([Buffer.from(`${WELL}x_a: `), bytes(0xed, 0xa0, 0x80)]), 'The byte ED'],
    ['2 MB', `${WELL}x_a: ${'x'.repeat(2e6)}\n`, 'This text is larger than 1 MiB'],
    [
      '70 levels',
      `${WELL}x_a: ${'['.repeat(70)}${']'.repeat(70)}\n`,
      'Entries are nested more than 64 levels deep here.',
    ],
  ])('%s', async (_, content, message) => {
    const { status, errors } = await found({ 'a.yaml': content });
    expect(status).toBe(1);
    expect(errors).toHaveLength(1);
    expect(errors[0]?.message).toContain(message);
  });
});

describe('what an editor leaves behind is no mistake', () => {
  test.each<readonly [string, string]>([
    ['a byte order mark', `\ufeff${WELL}`],
    ['line ends of CR and LF', WELL.replaceAll('\n', '\r\n')],
    ['line ends of CR alone', WELL.replaceAll('\n', '\r')],
    ['a megabyte in one scalar', `${WELL}x_a: ${'x'.repeat(1e6)}\n`],
  ])('%s', async (_, content) => {
    expect(await found({ 'a.yaml': content })).toMatchObject({ status: 0, errors: [] });
  });
});

describe('of many mistakes a hundred are listed and the others counted', () => {
  const policy = (key: string, item: (at: number) => string) => `document: policy/1\n${key}:\n${lines(5000, item)}`;
  test.each<readonly [string, string, string]>([
    ['unknown keys', `${WELL}${lines(10_000, (at) => `k${at}: 1\n`)}`, 'document.unknown-key'],
    ['equal keys', `${WELL}${'lift: linear\n'.repeat(10_000)}`, 'document.duplicate-key'],
    ['checks that there are not', policy('require', (at) => `  - tap.below-windo${at}\n`), 'policy.unknown-check'],
    ['limits that there are not', policy('limits', (at) => `  motor.near-ratin${at}: 92 %\n`), 'policy.unknown-limit'],
    [
      'deviations from nothing',
      `${WELL}deviations:\n${lines(4000, (at) => `  - { check: tap.below-windo${at}, reason: r, approved_by: x }\n`)}`,
      'deviation.unknown-check',
    ],
  ])('%s', async (_, content, id) => {
    const { status, findings } = await found({ 'a.yaml': content });
    const own = findings.filter((each) => each.check === id);
    expect(status).toBe(1);
    expect(own).toHaveLength(100);
    expect(own.at(-1)?.message).toMatch(/\d+ more/);
  });
});

describe('what costs too much is left out, and said', () => {
  const well = readFileSync(join(SAMPLES, 'pad-a/qm-a1.yaml'), 'utf8');
  const written = (change: (text: string) => string) => {
    const folder = folderWith({});
    cpSync(join(SAMPLES, 'equipment'), join(folder, 'equipment'), { recursive: true });
    mkdirSync(join(folder, 'pad'));
    writeFileSync(join(folder, 'pad/a.yaml'), change(well));
    return folder;
  };
  const tooLarge = async (folder: string) => {
    const { out } = await run(folder, (around) => check({ paths: ['pad/a.yaml'], format: 'json' }, around));
    const findings: readonly { check: string; message: string }[] = JSON.parse(out).files[0].findings;
    return findings.filter((each) => each.check === 'document.too-large').map(({ message }) => message);
  };
  const survey = (count: number) =>
    `  survey:\n${lines(count, (at) => `    - { md: ${at} m, tvd: ${at} m +/- 0.01 m }\n`)}`;
  const cases = (count: number) => lines(count, (at) => `    - { name: c${at}, intake: flowing }\n`);

  test('cases beyond a hundred', async () => {
    const folder = written((text) => text.replace('  cases:\n', `  cases:\n${cases(97)}`));
    expect(await tooLarge(folder)).toEqual([]);
    writeFileSync(join(folder, 'pad/a.yaml'), well.replace('  cases:\n', `  cases:\n${cases(98)}`));
    expect(await tooLarge(folder)).toEqual([
      'There are 101 cases. The first 100 are worked out and checked, the others are not. Keep the cases that decide something.',
    ]);
  });

  test('tolerances, in a file of many entries', async () => {
    const folder = written((text) => text.replace(/ {2}survey: .*\n/, survey(5)));
    expect(await tooLarge(folder)).toEqual([]);
    writeFileSync(join(folder, 'pad/a.yaml'), well.replace(/ {2}survey: .*\n/, survey(150)));
    expect((await tooLarge(folder)).join()).toMatch(
      /^150 entries have a tolerance\. In files of this size the first \d+ can be/,
    );
  });
});

describe('files that are not what they seem', () => {
  test('a folder named like a document is walked through', async () => {
    const folder = folderWith({ 'well.yaml/a.yaml': WELL });
    const { status, out } = await run(folder, (around) => check({ paths: [] }, around));
    expect(status).toBe(0);
    expect(out).toContain('well.yaml/a.yaml');
  });

  test('links that go round in a circle are told, and the others are checked', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    symlinkSync(folder, join(folder, 'again'));
    symlinkSync('other.yaml', join(folder, 'one.yaml'));
    symlinkSync('one.yaml', join(folder, 'other.yaml'));
    const { status, out, err } = await run(folder, (around) => check({ paths: [], format: 'json' }, around));
    expect(JSON.parse(out).files).toHaveLength(1);
    expect(err).toContain("'one.yaml' was not checked: its symbolic links go round in a circle.");
    expect(status).toBe(2);
  });

  test('one that vanishes between the walk and the reading is told, and the others are checked', async () => {
    const folder = folderWith({ 'a.yaml': WELL, 'gone.yaml': WELL });
    vanishing.path = 'gone.yaml';
    const { status, out, err } = await run(folder, (around) => check({ paths: [] }, around));
    expect(status).toBe(2);
    expect(err).toContain("'gone.yaml' was not checked: there is no such file.");
    expect(out).toContain('a.yaml');
  });
});

describe('where it cannot be written', () => {
  test.skipIf(!existsSync('/dev/full'))('a full disk is told in one line, with 2', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    for (const [format, write] of Object.entries({ html: worksheet, pdf: checklist })) {
      const asked = { file: 'a.yaml', format: format as never, output: '/dev/full' };
      const refused = run(folder, (around) => write(asked, around));
      expect(await refused.catch(({ message }: Error) => ({ status: 2, err: message }))).toMatchObject({
        status: 2,
        err: expect.stringContaining("'/dev/full' cannot be written: there is no space left on the disk."),
      });
    }
  });

  test('nothing is left behind, and what was there stays', async () => {
    const folder = folderWith({ 'a.yaml': WELL, 'out/there/old.html': 'old' });
    const { status } = await run(folder, (around) =>
      worksheet({ file: 'a.yaml', format: 'html', output: 'out/there' }, around),
    );
    expect(status).toBe(2);
    expect(readdirSync(join(folder, 'out'), { recursive: true })).toEqual(['there', 'there/old.html']);
  });

  test('a reader that leaves early ends it without a word', async () => {
    const child = spawn(process.execPath, [join(HOME, 'dist/cli.js'), 'worksheet', 'samples/pad-a/qm-a1.yaml'], {
      cwd: HOME,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let err = '';
    child.stderr.on('data', (data) => (err += data));
    child.stdout.once('data', () => child.stdout.destroy());
    const status = await new Promise((resolve) => child.once('close', resolve));
    expect([status, err]).toEqual([0, '']);
  });
});
