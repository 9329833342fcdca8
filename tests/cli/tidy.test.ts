import { readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { tidy as tidyCommand } from '../../server/src/commands/tidy.ts';
import { type CheckedFile, readDocument, tidy } from '../../server/src/engine/index.ts';
import { MISTAKES } from '../mistakes/list.ts';
import { WELLS } from '../mistakes/mistake.ts';
import { CLEAN } from '../mistakes/plant.ts';
import { SAMPLES } from '../support/project.ts';
import { makeFolder, removeFolder, run } from './support.ts';

const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

const UNTIDY = `document: cable/1   # the key stays where it is
name: an example
voltage_class: 5kV # a remark
handling_temperature_min: −30 °C
resistance_20: 1.15 Ω/km
width: "38mm"
insulation_resistance_length: 500 MΩ·km
`;
const TIDY = `document: cable/1   # the key stays where it is
name: an example
voltage_class: 5 kV # a remark
handling_temperature_min: −30 degC
resistance_20: 1.15 ohm/km
width: "38 mm"
insulation_resistance_length: 500 Mohm.km
`;

const tidied = (text: string) => tidy(readDocument('a.yaml', text));

describe('a text', () => {
  test('gets its units as they are written here; comments, order and numbers stay', () => {
    expect(tidied(UNTIDY)).toBe(TIDY);
    expect(tidied(TIDY)).toBe(TIDY);
  });

  test('keeps tolerance, reference and second reading', () => {
    const text = 'document: gauge/1\nname: x\nlength: 2m ± 5cm\nmass: 14kg=30.9lb\n';
    expect(tidied(text)).toBe('document: gauge/1\nname: x\nlength: 2 m ± 5 cm\nmass: 14 kg = 30.9 lb\n');
  });

  test('has a misspelled key mended, and no value', () => {
    expect(tidied('documnet: pump/1\nname: x\n')).toBe('document: pump/1\nname: x\n');
    const comma = "document: cable/1\nname: x\nvoltage_class: '1,850 V'\n";
    expect(tidied(comma)).toBe(comma);
  });

  test.each(['', 'a: 5m\n', '\0'])('%j stays as it is', (text) => {
    expect(tidied(text)).toBe(text);
  });
});

/** What is said of a file, without what is a matter of spelling, and without places. */
function said(file: CheckedFile | undefined) {
  const findings = (file?.findings ?? []).filter(({ fixes }) => !fixes.some(({ kind }) => kind === 'mechanical'));
  return { findings: findings.map(({ check, key, message }) => ({ check, key, message })), print: file?.fingerprint() };
}

function unchanged(path: string, text: string): void {
  const before = CLEAN.update([{ path, text }]);
  const after = tidy(readDocument(path, text));
  expect(tidy(readDocument(path, after))).toBe(after);
  const isMended = readDocument(path, text).problems.some(({ fixes }) =>
    fixes.some((fix) => fix.kind === 'mechanical'),
  );
  if (!isMended) expect(said(CLEAN.update([{ path, text: after }]).check(path))).toEqual(said(before.check(path)));
}

describe('findings and fingerprint', () => {
  test('of the samples stay, also when their units are untidy', () => {
    for (const well of Object.values(WELLS)) {
      const path = join(SAMPLES, well);
      const text = readFileSync(path, 'utf8');
      unchanged(path, text);
      const untidy = text.replaceAll(/(\d) (m|bar|A|V|Hz)\b(?![./(])/g, '$1$2').replaceAll(' degC', ' °C');
      expect(untidy).not.toBe(text);
      expect(tidy(readDocument(path, untidy))).toBe(tidy(readDocument(path, text)));
    }
  });

  test('of the known mistakes stay', () => {
    let looked = 0;
    for (const { well, text = [] } of MISTAKES) {
      if (text.length === 0) continue;
      const path = join(SAMPLES, WELLS[well]);
      unchanged(
        path,
        text.reduce((done, [from, to]) => done.replace(from, to), readFileSync(path, 'utf8')),
      );
      looked++;
    }
    expect(looked).toBeGreaterThan(5);
  });
});

describe('setproof tidy', () => {
  const command = (folder: string, args: { paths?: string[]; inPlace?: boolean } = {}) =>
    run(folder, (surroundings) => tidyCommand({ paths: [], ...args }, surroundings));

  test('shows what would change, and changes nothing', async () => {
    const folder = makeFolder({ 'a.yaml': UNTIDY, 'other.yaml': 'a: 5m\n' });
    folders.push(folder);
    const { status, out } = await command(folder);
    expect(status).toBe(0);
    expect(out).toContain('  - voltage_class: 5kV # a remark\n  + voltage_class: 5 kV # a remark');
    expect(out).toContain('1 file would be tidied.');
    expect(readFileSync(join(folder, 'a.yaml'), 'utf8')).toBe(UNTIDY);
  });

  test('changes files in place, whole, and a link stays a link', async () => {
    const folder = makeFolder({ 'a.yaml': UNTIDY, 'b/c.yaml': UNTIDY });
    folders.push(folder);
    symlinkSync('a.yaml', join(folder, 'link.yaml'));
    expect((await command(folder, { inPlace: true })).out).toContain('2 files tidied.');
    for (const name of ['a.yaml', 'b/c.yaml', 'link.yaml']) expect(readFileSync(join(folder, name), 'utf8')).toBe(TIDY);
    expect(readdirSync(folder).sort()).toEqual(['.git', 'a.yaml', 'b', 'link.yaml']);
    expect((await command(folder, { inPlace: true })).out).toBe('0 files tidied.\n');
  });

  test('2 for what is not there', async () => {
    const folder = makeFolder({ 'a.yaml': TIDY });
    folders.push(folder);
    expect((await command(folder, { paths: ['none.yaml'] })).status).toBe(2);
  });
});
