import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { check } from '../../server/src/commands/check.ts';
import { checks } from '../../server/src/commands/checks.ts';
import { newDocument } from '../../server/src/commands/new.ts';
import { CATALOGUE, type DocumentKind, readDocument, VERSIONS } from '../../server/src/engine/index.ts';
import { type Lift, starterDocument } from '../../server/src/render/starter/starter.ts';
import { makeFolder, removeFolder, run } from './support.ts';

const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

function folderWith(files: Parameters<typeof makeFolder>[0]): string {
  const folder = makeFolder(files);
  folders.push(folder);
  return folder;
}

const KINDS = Object.keys(VERSIONS) as DocumentKind[];
const EACH = KINDS.flatMap((kind) =>
  [undefined, 'linear', 'rotary'].map((lift) => [kind, lift as Lift | undefined] as const),
);

/** What is wrong with how a document is written; setpoints and checks that wait for entries are another matter. */
function problemsOf(text: string): readonly string[] {
  return readDocument('new.yaml', text).problems.map(({ check: id, message }) => `${id}: ${message}`);
}

describe('new', () => {
  test.each(EACH)('writes a %s (%s) that reads without a fault', async (kind, lift) => {
    const folder = folderWith({});
    const made = await run(folder, (around) => newDocument({ kind, file: 'new.yaml', lift }, around));
    expect(made).toMatchObject({ status: 0, out: '' });
    expect(made.err).toBe(
      "setproof: 'new.yaml' is written. Fill it in, and ask 'setproof check new.yaml' as you go.\n",
    );
    expect(problemsOf(readFileSync(join(folder, 'new.yaml'), 'utf8'))).toEqual([]);
    const { out } = await run(folder, (around) => check({ paths: ['new.yaml'], format: 'json' }, around));
    const errors = JSON.parse(out).files[0].findings.filter((each: { severity: string }) => each.severity === 'error');
    expect(errors.filter((each: { check: string }) => !each.check.endsWith('.missing'))).toEqual([]);
  });

  test.each(EACH)('its comments name keys of a %s (%s) in their right places', (kind, lift) => {
    const [head, ...rest] = starterDocument(kind, lift).split(/(?<=^document: .*\n)/m);
    const used = `${head}${rest.join('')}`
      .split('\n')
      .filter((line) => !/^# (.*document to begin with|put your own|to, and give)/.test(line));
    const uncommented = used.map((line) => line.replace(/^(\s*)# /, '$1')).join('\n');
    const wrong = problemsOf(uncommented).filter((each) => !each.includes('has no value; give it one'));
    expect(wrong).toEqual([]);
  });

  test('knows the two lifts apart', () => {
    expect(starterDocument('installation', 'linear')).toMatch(/^lift: linear/m);
    expect(starterDocument('installation', 'linear')).toContain('# stroke');
    expect(starterDocument('installation', 'rotary')).not.toContain('# stroke');
    expect(starterDocument('pump', 'rotary')).not.toContain('plunger_diameter');
    expect(starterDocument('pump', 'linear')).not.toContain('stages');
  });

  test('goes to standard output without a file', async () => {
    const { status, out } = await run(folderWith({}), (around) => newDocument({ kind: 'pump' }, around));
    expect({ status, out }).toEqual({ status: 0, out: starterDocument('pump') });
  });

  test('leaves a file that is there as it is', async () => {
    const folder = folderWith({ 'a.yaml': 'mine' });
    const { status, err } = await run(folder, (around) => newDocument({ kind: 'pump', file: 'a.yaml' }, around));
    expect({ status, err }).toEqual({ status: 2, err: "setproof: 'a.yaml' was not written: it is there already.\n" });
    expect(readFileSync(join(folder, 'a.yaml'), 'utf8')).toBe('mine');
  });

  test('2 for a kind that there is not, with the nearest', async () => {
    const { status, err } = await run(folderWith({}), (around) => newDocument({ kind: 'moter' }, around));
    expect(status).toBe(2);
    expect(err).toContain("Was 'motor' meant?");
  });
});

describe('checks', () => {
  test('lists every check', async () => {
    const { status, out } = await run(folderWith({}), (around) => checks({}, around));
    expect(status).toBe(0);
    for (const { id, severity } of CATALOGUE) expect(out).toMatch(new RegExp(`^  ${id} +${severity} `, 'm'));
  });

  test('explains one, with its limits', async () => {
    const { status, out } = await run(folderWith({}), (around) => checks({ id: 'tap.thin-margin' }, around));
    const texts = CATALOGUE.find(({ id }) => id === 'tap.thin-margin');
    expect(status).toBe(0);
    const flat = out.replace(/\n +/g, ' ');
    for (const text of [texts?.title, texts?.compares, texts?.why, texts?.mend, texts?.source])
      expect(flat).toContain(text);
    expect(out).toContain('tap.thin-margin: 2 %');
  });

  test('2 for a check that there is not, with the nearest', async () => {
    const { status, err } = await run(folderWith({}), (around) => checks({ id: 'tap.below-windw' }, around));
    expect({ status, err }).toEqual({
      status: 2,
      err: "setproof: There is no check 'tap.below-windw'. Was 'tap.below-window' meant?\n",
    });
  });
});
