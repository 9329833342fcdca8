import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { isMap, isSeq, parseDocument, type YAMLMap, type YAMLSeq } from 'yaml';
import type {
  ExampleEdits,
  InstallationExample,
  TextExample,
  VisitExample,
} from '../../server/src/engine/findings/texts.ts';
import { buildChecklist, type CheckedFile, Repository, stepsOf } from '../../server/src/engine/index.ts';
import { goodVisit } from '../support/good-visit.ts';
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
  return checked(withWanted(Repository.empty({ root: BASE, today: TODAY }).update([{ path, text }, ...others])), path);
}

const VISIT = join(BASE, 'visit.yaml');
const VISIT_DATE = '2026-05-28';

/** A complete visit to the clean installation of a lift, with entries and rows changed. */
export function checkVisit(lift: VisitExample['visit'], edits: ExampleEdits = {}): CheckedFile {
  const path = join(BASE, `${lift}.yaml`);
  const repository = withWanted(Repository.empty({ root: BASE, today: TODAY }).update([readChange(path)]));
  const checklist = buildChecklist(checked(repository, path), { units: 'as-written' });
  const text = editedVisit(goodVisit(checklist, { date: VISIT_DATE, installation: `${lift}.yaml` }), edits);
  return checked(withWanted(repository.update([{ path: VISIT, text }])), VISIT);
}

/** The dotted key of a place in an example: of the last row of an item, or as it is. */
export function keyInVisit(file: CheckedFile, at: string): string {
  const item = /^row (\S+)/.exec(at)?.[1];
  if (item === undefined) return at;
  const { tree } = file.document;
  const rows = [...tree.children(tree.find('readings'))].filter((row) => tree.scalar(tree.child(row, 'item')) === item);
  return tree.path(rows.at(-1) ?? tree.root);
}

function withWanted(repository: Repository): Repository {
  const wanted = repository.wanted();
  return wanted.length === 0 ? repository : withWanted(repository.update(wanted.map(readChange)));
}

function editedVisit(text: string, edits: ExampleEdits): string {
  const entries = Object.entries(edits);
  const document = parseDocument(edited(text, Object.fromEntries(entries.filter(([key]) => !key.startsWith('row ')))));
  const rows = document.get('readings') as YAMLSeq<YAMLMap>;
  for (const [key, newText] of entries) {
    const [, item = '', twice] = /^row (\S+)( twice)?$/.exec(key) ?? [];
    if (item !== '') editRow(rows, item, newText, twice !== undefined);
  }
  return document.toString({ lineWidth: 0 });
}

function editRow(rows: YAMLSeq<YAMLMap>, item: string, newText: string | null, isSecond: boolean): void {
  const at = rows.items.findIndex((row) => row.get('item') === item);
  if (newText === null) {
    rows.delete(at);
    return;
  }
  const changes = parseDocument(newText).contents as YAMLMap;
  const row = isSecond ? undefined : rows.items[at];
  if (row === undefined) rows.add(parseDocument(`{ item: ${item}, ${newText.slice(1)}`).contents as YAMLMap);
  else for (const pair of changes.items) row.set(pair.key, pair.value);
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
