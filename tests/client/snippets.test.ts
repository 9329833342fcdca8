import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readDocument } from '../../server/src/engine/index.ts';

interface Snippet {
  readonly prefix: string;
  readonly body: readonly string[];
}
const FILE = join(import.meta.dirname, '../../snippets/setproof.json');
const SNIPPETS: Readonly<Record<string, Snippet>> = JSON.parse(readFileSync(FILE, 'utf8'));

/** The text that stands in the editor when every place to fill in keeps what it begins with. */
function filledIn({ body }: Snippet): string {
  return body
    .join('\n')
    .replaceAll('$CURRENT_YEAR-$CURRENT_MONTH-$CURRENT_DATE', '2026-03-14')
    .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '');
}

/** A piece of a document in the place where it belongs. */
function inPlace(text: string): string {
  if (text.startsWith('document:')) return text;
  const start = 'document: installation/1\nsite: { well: A-01 }\nlift: linear\nequipment: { pump: { serial: P-1 } }\n';
  const cases = '    - { name: target, intake: flowing }';
  if (text.startsWith('- check:')) {
    const list = text.replace(/^/gm, '  ');
    return `${start}operation:\n  cases:\n${cases}\ndeviations:\n${list}\n`;
  }
  return `${start}operation:\n  cases:\n${text.replace(/^/gm, '    ')}\n`;
}

describe('snippets', () => {
  test.each(Object.entries(SNIPPETS))('%s reads without a problem', (_, snippet) => {
    const text = filledIn(snippet);
    expect(text).not.toContain('$');
    const { ours, problems } = readDocument('/site/a.yaml', inPlace(text));
    expect(ours).toBe(true);
    expect(problems.map(({ message }) => message)).toEqual([]);
  });

  test('are found by the name of the program, each by its own', () => {
    const prefixes = Object.values(SNIPPETS).map(({ prefix }) => prefix);
    expect(prefixes.filter((prefix) => !prefix.startsWith('setproof '))).toEqual([]);
    expect(new Set(prefixes).size).toBe(prefixes.length);
  });
});
