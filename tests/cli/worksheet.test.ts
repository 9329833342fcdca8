import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, describe, expect, test } from 'vitest';
import { checklist } from '../../server/src/commands/checklist.ts';
import { type WorksheetArguments, worksheet } from '../../server/src/commands/worksheet.ts';
import { HOME, makeFolder, PUMP, removeFolder, run, WELL } from './support.ts';

const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

function folderWith(files: Parameters<typeof makeFolder>[0]): string {
  const folder = makeFolder(files);
  folders.push(folder);
  return folder;
}

const worked = (folder: string, args: WorksheetArguments) => run(folder, (around) => worksheet(args, around));
const schema = (name: string) =>
  new Ajv2020({ strict: false }).compile(JSON.parse(readFileSync(join(HOME, 'schemas', name), 'utf8')));

const WELLS = ['samples/pad-a/qm-a1.yaml', 'samples/pad-b/qm-b2.yaml'];

interface Sheet {
  readonly values: {
    id: string;
    case: string | null;
    number: number;
    unit: string;
    inputs: Record<string, unknown>[];
  }[];
  readonly unavailable: { id: string; case: string | null; missing: string[] }[];
  readonly windows: { setpoint: string; value: number; lower: { number: number }[]; margin: number }[];
}

describe('worksheet', () => {
  const validate = schema('worksheet-output.schema.json');

  test.each(WELLS)('JSON of %s follows its schema', async (file) => {
    const { status, out } = await worked(HOME, { file, format: 'json' });
    expect(status).toBe(0);
    validate(JSON.parse(out));
    expect(validate.errors).toBeNull();
  });

  test('JSON has every number unrounded in the internal unit, with the entry that it came from', async () => {
    const { out } = await worked(HOME, { file: 'samples/pad-a/qm-a1.yaml', format: 'json' });
    const sheet: Sheet = JSON.parse(out);
    const intake = sheet.values.find(({ id }) => id === 'well.intake_tvd');
    expect(intake).toMatchObject({ case: null, number: 1395, unit: 'm' });
    expect(intake?.inputs).toContainEqual(
      expect.objectContaining({ key: 'well.intake.tvd', number: 1395, default: false }),
    );
    const atmosphere = sheet.values.find(({ id }) => id === 'site.atmosphere');
    expect(atmosphere).toMatchObject({ number: 101325 * (1 - 2.25577e-5 * 340) ** 5.25588, unit: 'Pa' });
    const window = sheet.windows.find(({ setpoint }) => setpoint.endsWith('intake_pressure_low.trip'));
    expect(window?.value).toBeCloseTo(17e5 + (atmosphere?.number ?? 0), 0);
  });

  test('JSON of a bare installation says what is lacking', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    const { status, out } = await worked(folder, { file: 'a.yaml', format: 'json' });
    validate(JSON.parse(out));
    expect(validate.errors).toBeNull();
    const sheet: Sheet = JSON.parse(out);
    expect(status).toBe(0);
    expect(sheet.unavailable).toContainEqual(
      expect.objectContaining({
        id: 'well.intake_tvd',
        case: null,
        missing: expect.arrayContaining(['well.intake.tvd']),
      }),
    );
  });

  test('text gives title, value, formula, inputs with their lines, and source; file first, then the cases', async () => {
    const { status, out } = await worked(HOME, { file: 'samples/pad-a/qm-a1.yaml' });
    expect(status).toBe(0);
    expect(out).toContain('vertical depth of the intake: 1395 m  well.intake_tvd');
    expect(out).toMatch(/tvd = 1395 m \(well\.intake\.tvd, samples\/pad-a\/qm-a1\.yaml:\d+\)/);
    const order = ['maker’s manual', 'For the whole file', "Case 'target'", 'Windows of the setpoints'];
    const places = order.map((words) => out.replaceAll("'s manual", '’s manual').indexOf(words));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  test('0 and a word on standard error for a file with errors', async () => {
    const folder = folderWith({ 'a.yaml': `${WELL}reservoir: { pressure: 78 }\n` });
    const { status, err } = await worked(folder, { file: 'a.yaml' });
    expect({ status, err }).toEqual({
      status: 0,
      err: "setproof: 'a.yaml' has 1 error; 'setproof check' names them.\n",
    });
  });

  test.each([
    ['none.yaml', 'there is no such file'],
    ['pump.yaml', 'it is a pump/1'],
    ['other.yaml', "it has no key 'document'"],
    ['folder', 'is a folder'],
  ])('2 for %s', async (file, words) => {
    const folder = folderWith({ 'pump.yaml': PUMP, 'other.yaml': 'a: 1\n', 'folder/a.yaml': WELL });
    const { status, out, err } = await worked(folder, { file });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toContain(words);
  });
});

describe('checklist', () => {
  test.each(WELLS)('JSON of %s follows its schema', async (file) => {
    const validate = schema('checklist-output.schema.json');
    const { status, out } = await run(HOME, (around) => checklist({ file, format: 'json' }, around));
    expect(status).toBe(0);
    validate(JSON.parse(out));
    expect(validate.errors).toBeNull();
    expect(JSON.parse(out).installation).toBe(file);
  });

  test('goes to a file as a page', async () => {
    const folder = folderWith({ 'a.yaml': WELL });
    const { status, out } = await run(folder, (around) => checklist({ file: 'a.yaml', output: 'a.html' }, around));
    expect({ status, out }).toEqual({ status: 0, out: '' });
    expect(readFileSync(join(folder, 'a.html'), 'utf8')).toMatch(/^<!doctype html>/i);
  });
});
