import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Change, type Finding, NONE, type NodeIndex, Repository } from '../../server/src/engine/index.ts';
import { checked, edited, SAMPLES, TODAY } from '../support/project.ts';
import { type Mistake, WELLS } from './mistake.ts';

type Document = NonNullable<ReturnType<Repository['document']>>;

/** What was found in the files that a mistake touches, and whether it is at one of the mistake's keys. */
export interface Outcome {
  readonly mistake: Mistake;
  readonly found: readonly Finding[];
  readonly caught: boolean;
}

/** All wells in one repository, so that names, serial numbers and setpoints are compared. */
export const CLEAN: Repository = withWanted(
  Repository.empty({ root: SAMPLES, today: TODAY }).update(
    Object.values(WELLS).map((well) => read(join(SAMPLES, well))),
  ),
);

/** Plants a mistake alone in the clean wells, and looks for it. */
export function planted(mistake: Mistake): Outcome {
  const well = join(SAMPLES, mistake.copiedTo ?? WELLS[mistake.well]);
  const target = mistake.sheet === undefined ? well : join(SAMPLES, mistake.sheet);
  const repository = withWanted(rewritten(withCopy(mistake), target, mistake));
  const found = [...new Set([well, target])].flatMap((path) => newFindings(repository, path));
  return { mistake, found, caught: found.some((finding) => stands(finding, mistake)) };
}

/** The errors and warnings of a clean well. */
export function serious(repository: Repository, path: string): readonly Finding[] {
  return checked(repository, path).findings.filter(({ severity }) => severity !== 'note');
}

function withCopy({ well, copiedTo }: Mistake): Repository {
  if (copiedTo === undefined) return CLEAN;
  return CLEAN.update([{ path: join(SAMPLES, copiedTo), text: textOf(CLEAN, join(SAMPLES, WELLS[well])) }]);
}

function rewritten(repository: Repository, path: string, { id, edits = {}, text = [] }: Mistake): Repository {
  let before = repository;
  for (const [key, newText] of Object.entries(edits)) before = withEntry(before, path, key, newText);
  return text.reduce((all, [from, to]) => {
    const old = textOf(all, path);
    if (!old.includes(from)) throw new Error(`${id}: ${path} has no '${from}'`);
    return all.update([{ path, text: old.replaceAll(from, to) }]);
  }, before);
}

function withEntry(repository: Repository, path: string, key: string, newText: string | null): Repository {
  const document = documentOf(repository, path);
  const node = document.tree.find(key);
  if (node !== NONE && newText !== null) return edited(repository, path, { [key]: newText });
  const text = newText === null ? withoutNode(document, node) : withNewKey(document, key, newText);
  return repository.update([{ path, text }]);
}

/** The text without an entry: of a flow mapping with its comma, of a block mapping with its lines. */
function withoutNode({ tree, source: { text } }: Document, node: NodeIndex): string {
  if (node === NONE) throw new Error('what is not there cannot be taken out');
  const [start, end] = [tree.keySpan(node).start, tree.span(node).end];
  const [before, after] = [text.slice(0, start), text.slice(end)];
  if (/^\s*,/.test(after)) return before + after.replace(/^\s*,\s*/, '');
  if (/,\s*$/.test(before)) return before.replace(/,\s*$/, '') + after;
  return before.replace(/[^\n]*$/, '') + after.replace(/^[^\n]*\n/, '');
}

/** The text with a key more: first in a flow mapping, on a line of its own in a block mapping. */
function withNewKey({ tree, source: { text } }: Document, key: string, newText: string): string {
  const dot = key.lastIndexOf('.');
  const parent = tree.find(key.slice(0, dot));
  if (parent === NONE) throw new Error(`there is no place for ${key}`);
  const entry = `${key.slice(dot + 1)}: ${newText}`;
  const { start } = tree.span(parent);
  if (text[start] === '{') return `${text.slice(0, start + 1)} ${entry},${text.slice(start + 1)}`;
  const first = tree.keySpan(tree.firstChild(parent)).start;
  const indent = ' '.repeat(first - text.lastIndexOf('\n', first) - 1);
  return `${text.slice(0, first)}${entry}\n${indent}${text.slice(first)}`;
}

function newFindings(repository: Repository, path: string): readonly Finding[] {
  const clean = CLEAN.document(path) === undefined ? [] : checked(CLEAN, path).findings;
  const known = new Set(clean.map(identity));
  return checked(repository, path).findings.filter((finding) => !known.has(identity(finding)));
}

const identity = ({ check, key, message }: Finding) => `${check} ${key} ${message}`;

function stands(finding: Finding, { edits = {}, also = [], note }: Mistake): boolean {
  if (finding.severity === 'note' && note !== true) return false;
  const keys = [...Object.keys(edits), ...also];
  return [finding, ...finding.related].some((place) => keys.some((key) => isWithin(place.key, key)));
}

/** Whether `place` is `key` or an entry below. */
function isWithin(place: string, key: string): boolean {
  return place === key || (key !== '' && (place.startsWith(`${key}.`) || place.startsWith(`${key}[`)));
}

function documentOf(repository: Repository, path: string): Document {
  const document = repository.document(path);
  if (document === undefined) throw new Error(`there is no ${path}`);
  return document;
}

const textOf = (repository: Repository, path: string) => documentOf(repository, path).source.text;

function withWanted(repository: Repository): Repository {
  const wanted = repository.wanted();
  return wanted.length === 0 ? repository : withWanted(repository.update(wanted.map(read)));
}

function read(path: string): Change {
  try {
    return { path, text: readFileSync(path, 'utf8') };
  } catch {
    return { path, absent: true };
  }
}
