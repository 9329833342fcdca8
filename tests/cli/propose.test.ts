import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { propose } from '../../server/src/commands/propose.ts';
import { checked, openProject, SAMPLES } from '../support/project.ts';
import { makeFolder, removeFolder, run } from './support.ts';

const WELL = readFileSync(join(SAMPLES, 'pad-a/qm-a1.yaml'), 'utf8');
const folders: string[] = [];
afterEach(() => folders.splice(0).forEach(removeFolder));

/** The sample well in a folder of its own, beside the samples' equipment, with lines or stretches taken out. */
function wellWithout(...stretches: readonly RegExp[]): { folder: string; text: string } {
  let text = WELL.replaceAll('../equipment', 'equipment');
  for (const stretch of stretches) {
    expect(text).toMatch(stretch);
    text = text.replace(stretch, '');
  }
  const folder = makeFolder({ 'qm-a1.yaml': text });
  folders.push(folder);
  return { folder, text };
}

const SHEETS = readSheets();

function readSheets(): readonly { name: string; text: string }[] {
  const path = join(SAMPLES, 'pad-a/qm-a1.yaml');
  return openProject(path)
    .paths()
    .filter((each) => each.includes('/equipment/'))
    .map((each) => ({ name: each.slice(SAMPLES.length + 1), text: readFileSync(each, 'utf8') }));
}

function withSheets(folder: string): string {
  for (const { name, text } of SHEETS) writeWithFolders(join(folder, name), text);
  return folder;
}

function writeWithFolders(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}

const proposed = (folder: string, inPlace = false) =>
  run(folder, (around) => propose({ file: 'qm-a1.yaml', root: '.', inPlace }, around));

describe('propose', () => {
  test('leaves a complete file as it is', async () => {
    const { folder, text } = wellWithout();
    const { status, out } = await proposed(withSheets(folder));
    expect(status).toBe(0);
    expect(out).toBe(text);
  });

  test('writes a tap that is missing, with number and voltage, and says what it rests on', async () => {
    const { folder } = wellWithout(/ {2}transformer: \{ tap: 3, voltage: 900 V \}\n/);
    const { out } = await proposed(withSheets(folder));
    expect(out).toMatch(
      /^ {2}transformer:\n {4}# the lowest tap [^\n]*\n(?: {4}# .*\n)* {4}tap: 3\n {4}voltage: 900 V$/m,
    );
    expect(
      Math.max(
        ...out
          .split('setpoints:')[1]!
          .split('\n')
          .filter((line) => line.includes('# '))
          .map((line) => line.length),
      ),
    ).toBeLessThan(140);
  });

  test('writes a trip into a flow mapping and keeps everything else to the letter', async () => {
    const { folder, text } = wellWithout(/trip: 17 bar, /);
    const { out } = await proposed(withSheets(folder));
    const added = out.split('\n').filter((line) => !text.split('\n').includes(line));
    const comment = added.slice(0, -1);
    expect(comment.every((line) => line.startsWith('    # '))).toBe(true);
    expect(comment.map((line) => line.slice('    # '.length)).join(' ')).toMatch(/^trip: .* at least .* at most /);
    expect(added.at(-1)).toMatch(/intake_pressure_low: .*trip: [\d.]+ bar\(g\) \}$/);
  });

  test('says of what it did not write what it lacks', async () => {
    const { folder } = wellWithout(/ {2}transformer: \{ tap: 3, voltage: 900 V \}\n/, /voltage_mode: trimmed, /);
    const { err } = await proposed(withSheets(folder));
    expect(err).toContain("'setpoints.transformer.tap' was not written: it lacks 'setpoints.drive.voltage_mode'.");
  });

  test('writes what no check then finds wrong', async () => {
    const { folder } = wellWithout(/trip: 17 bar, /, / {2}transformer: \{ tap: 3, voltage: 900 V \}\n/);
    expect((await proposed(withSheets(folder), true)).status).toBe(0);
    const path = join(folder, 'qm-a1.yaml');
    const found = checked(openProject(path, folder), path).findings.filter(({ severity }) => severity === 'error');
    expect(found.map(({ check, message }) => `${check}: ${message}`)).toEqual([]);
  });

  test('does not write what cannot be worked out', async () => {
    const { folder, text } = wellWithout(/trip: 17 bar, /, / {2}pressure: 78 bar\n/);
    const { status, out } = await proposed(withSheets(folder));
    expect(status).toBe(0);
    expect(out).not.toMatch(/trip: 75/);
    expect(text).not.toContain('reservoir:\n  pressure');
  });
});
