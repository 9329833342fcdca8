import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { isMap, isSeq, parseDocument } from 'yaml';
import type { ExampleEdits, InstallationExample, TextExample } from '../../server/src/engine/findings/texts.ts';
import { type CheckedFile, Repository, stepsOf } from '../../server/src/engine/index.ts';
import { TODAY } from '../support/project.ts';

const BASE = join(import.meta.dirname, 'base');

/** The clean installation of a lift, with entries changed, checked with its data sheets. */
export function checkEdited(
  lift: InstallationExample['lift'],
  edits: ExampleEdits = {},
  beside: InstallationExample['beside'] = {},
): CheckedFile {
  const path = join(BASE, `${lift}.yaml`);
  const text = edited(readFileSync(path, 'utf8'), edits);
  const others = Object.entries(beside).map(([name, content]) => ({ path: join(BASE, name), text: content }));
  let repository = Repository.empty({ root: BASE, today: TODAY }).update([{ path, text }, ...others]);
  for (let wanted = repository.wanted(); wanted.length > 0; wanted = repository.wanted()) {
    repository = repository.update(wanted.map(readChange));
  }
  return checked(repository, path);
}

/** A text on its own. */
export function checkText(text: string): CheckedFile {
  const path = '/work/example.yaml';
  return checked(Repository.empty({ root: '/work', today: TODAY }).update([{ path, text }]), path);
}

/** The text of an example without its marks, and what stood between them. */
export function unmark({ failing }: TextExample): {
  readonly text: string;
  readonly span: { start: number; end: number };
} {
  const start = failing.indexOf('«');
  const end = failing.indexOf('»') - 1;
  return { text: failing.replace('«', '').replace('»', ''), span: { start, end } };
}

function checked(repository: Repository, path: string): CheckedFile {
  const file = repository.check(path);
  if (file === undefined) throw new Error(`${path} was not read`);
  return file;
}

function readChange(path: string) {
  try {
    return { path, text: readFileSync(path, 'utf8') };
  } catch {
    return { path, absent: true } as const;
  }
}

/** Changes entries of a YAML text, adds those that are absent, and takes out those that are to be null. */
function edited(text: string, edits: ExampleEdits): string {
  const document = parseDocument(text, { keepSourceTokens: false });
  for (const [key, newText] of Object.entries(edits)) {
    const steps = stepsOf(key);
    if (newText === null) document.deleteIn(steps);
    else document.setIn(steps, parseDocument(newText, { keepSourceTokens: false }).contents);
    const parent = document.getIn(steps.slice(0, -1));
    if (newText !== null && !isMap(parent) && !isSeq(parent)) throw new Error(`${key} has no place in the base`);
  }
  return document.toString({ lineWidth: 0 });
}
