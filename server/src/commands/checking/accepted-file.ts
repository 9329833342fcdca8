import { readFileSync } from 'node:fs';
import { compareText, folderOf, type Measure, resolvePath } from '../../engine/index.ts';
import { absolutePath, relativePath } from '../../host/node/paths.ts';
import { reasonOf } from '../../host/node/reasons.ts';
import { jsonText } from '../../render/escape.ts';
import { writeOutput } from '../output.ts';
import { Refusal, type Surroundings } from '../surroundings.ts';
import type { AcceptedEntry } from './accepted.ts';

const VERSION = 1;

/**
 * Reads a list of accepted findings; its schema is schemas/accepted-output.schema.json. Files are named from the folder
 * that the list lies in. @throws Refusal for a list that cannot be read right: it must not be half in force
 */
export function readAccepted(name: string, { cwd }: Surroundings): readonly AcceptedEntry[] {
  const at = absolutePath(cwd, name);
  const list = parsed(textOf(at, name), name);
  if (!isRecord(list) || list.setproof_accepted !== VERSION || !Array.isArray(list.findings)) {
    throw new Refusal(
      `'${name}' is no list of accepted findings: it begins with "setproof_accepted": ${VERSION} and holds "findings".`,
    );
  }
  return list.findings.map((entry: unknown, place) => entryIn(entry, at, `entry ${place + 1} of '${name}'`));
}

/** Writes a list, sorted, an entry on a line, so that a review shows what came and what went. */
export function writeAccepted(name: string, entries: readonly AcceptedEntry[], surroundings: Surroundings): void {
  const folder = folderOf(absolutePath(surroundings.cwd, name));
  const lines = [...entries]
    .sort((a, b) => compareText(orderOf(a), orderOf(b)))
    .map(({ path, ...rest }) => `    ${jsonText({ file: relativePath(folder, path), ...rest })}`);
  const list = lines.length === 0 ? '' : `\n${lines.join(',\n')}\n  `;
  writeOutput(name, `{\n  "setproof_accepted": ${VERSION},\n  "findings": [${list}]\n}\n`, surroundings);
}

function orderOf({ path, key, check, case: inCase }: AcceptedEntry): string {
  return [path, key, check, inCase ?? ''].join('\0');
}

/** A list may well be larger than a document. */
function textOf(path: string, name: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw new Refusal(`The list of accepted findings '${name}' cannot be read: ${reasonOf(error)}.`);
  }
}

function parsed(text: string, name: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Refusal(`'${name}' is no JSON: ${error instanceof Error ? error.message : String(error)}.`);
  }
}

function entryIn(entry: unknown, list: string, where: string): AcceptedEntry {
  const { file, key, check, case: inCase, value } = isRecord(entry) ? entry : {};
  if (typeof file !== 'string' || typeof key !== 'string' || typeof check !== 'string') {
    throw new Refusal(`In ${where} there must be "file", "key" and "check", each a text.`);
  }
  if (inCase !== undefined && typeof inCase !== 'string') throw new Refusal(`In ${where} "case" must be a text.`);
  return { path: resolvePath(list, file), key, check, case: inCase, value: valueIn(value, where) };
}

function valueIn(value: unknown, where: string): Measure | undefined {
  if (value === undefined) return undefined;
  const { number, unit } = isRecord(value) ? value : {};
  if (typeof number === 'number' && typeof unit === 'string') return { number, unit };
  throw new Refusal(`In ${where} "value" must be { "number": …, "unit": "…" }.`);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
