import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const LINEAR = 'pad-a/qm-a1.yaml';
export const ROTARY = 'pad-a/qm-a3.yaml';
/** The mistake that README and guide speak of. */
export const LOW_TAP = { from: '{ tap: 3, voltage: 900 V }', to: '{ tap: 1, voltage: 700 V }' };

/** Copies the demo field into a folder, with an entry of a well changed if one is told. */
export function copyField(root, folder, { well, edit }) {
  cpSync(join(root, 'samples'), folder, { recursive: true });
  if (edit === undefined) return folder;
  const path = join(folder, well);
  const text = readFileSync(path, 'utf8');
  if (!text.includes(edit.from)) throw new Error(`${well} has no ${edit.from}`);
  writeFileSync(path, text.replace(edit.from, edit.to));
  return folder;
}

/** Where a text ends in a file; line and column count from one. */
export function placeOf(path, part) {
  const lines = readFileSync(path, 'utf8').split('\n');
  const at = lines.findIndex((each) => each.includes(part));
  return { line: at + 1, column: lines[at].indexOf(part) + part.length };
}
