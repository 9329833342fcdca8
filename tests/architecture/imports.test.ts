import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join, posix } from 'node:path';
import { describe, expect, test } from 'vitest';

const SOURCES = join(import.meta.dirname, '../../server/src');
/** The folders of the engine that a package of its own size would be; what stands beside them is its root. */
const PARTS = [
  ...['text', 'quantity', 'syntax', 'format', 'links', 'values', 'windows', 'findings', 'checks'],
  ...['checklist', 'readings', 'compare', 'proposal', 'tidy'],
].map((name) => `engine/${name}`);

/** What each layer may import besides itself: the way of the data goes one way. `*` is everything of ours. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  'engine/text': [],
  'engine/quantity': [],
  'engine/syntax': ['engine/text'],
  'engine/format': ['engine/syntax', 'engine/quantity', 'engine/text'],
  'engine/links': ['engine/format', 'engine/syntax', 'engine/quantity', 'engine/text'],
  'engine/findings': ['engine/format', 'engine/syntax', 'engine/text'],
  'engine/values': ['engine/links', 'engine/format', 'engine/syntax', 'engine/quantity', 'engine/text'],
  'engine/windows': [
    ...['engine/values', 'engine/findings', 'engine/links', 'engine/format', 'engine/syntax'],
    ...['engine/quantity', 'engine/text'],
  ],
  'engine/checks': [
    ...['engine/windows', 'engine/values', 'engine/findings', 'engine/links', 'engine/format', 'engine/syntax'],
    ...['engine/quantity', 'engine/text'],
  ],
  'engine/tidy': ['engine/format', 'engine/syntax', 'engine/quantity', 'engine/text'],
  'engine/checklist': [...PARTS.filter((part) => !['engine/compare', 'engine/readings'].includes(part)), 'engine'],
  'engine/readings': [...PARTS.filter((part) => part !== 'engine/compare'), 'engine'],
  'engine/compare': [...PARTS.filter((part) => !['engine/checklist', 'engine/readings'].includes(part)), 'engine'],
  'engine/proposal': [...PARTS.filter((part) => !['engine/checklist', 'engine/readings'].includes(part)), 'engine'],
  engine: PARTS,
  render: ['engine/index'],
  // The script of the field page takes of the engine only what judges a reading, so that it stays small.
  field: ['engine/checklist'],
  language: ['engine/index', 'render'],
  host: ['engine/index'],
  commands: ['engine/index', 'render', 'host'],
  entry: ['engine/index', 'render', 'language', 'host', 'commands'],
};

/** Libraries by the layer that may import them. */
const LIBRARIES: Readonly<Record<string, readonly string[]>> = {
  'engine/syntax': ['yaml', 'js-yaml'],
  'engine/links': ['@noble/hashes'],
  render: ['uqr', '@cantoo/pdf-lib'],
  language: ['vscode-languageserver', 'vscode-languageserver-textdocument'],
  host: ['ignore', '@cantoo/pdf-lib'],
  entry: ['commander', 'picocolors', 'vscode-languageserver'],
};
const WITH_NODE = new Set(['host', 'commands', 'entry']);

interface Import {
  readonly file: string;
  readonly layer: string;
  readonly target: string;
}

function layerOf(file: string): string {
  return PARTS.find((part) => file.startsWith(`${part}/`)) ?? (file.split('/')[0] as string);
}

function importsOf(file: string): readonly Import[] {
  const text = readFileSync(join(SOURCES, file), 'utf8');
  const names = text.matchAll(
    /^(?:import|export)\s[^;'"`]*?\bfrom\s+'([^']+)'|^import\s+'([^']+)'|\bimport\(\s*'([^']+)'\s*\)/gm,
  );
  return [...names].map((match) => ({ file, layer: layerOf(file), target: match[1] ?? match[2] ?? match[3] ?? '' }));
}

const FILES = readdirSync(SOURCES, { recursive: true, encoding: 'utf8' })
  .map((name) => name.replaceAll('\\', '/'))
  .filter((name) => name.endsWith('.ts') && !name.includes('/generated/'));
const IMPORTS = FILES.flatMap(importsOf);
const OURS = IMPORTS.filter(({ target }) => target.startsWith('.'));
const OTHERS = IMPORTS.filter(({ target }) => !target.startsWith('.'));

function resolved({ file, target }: Import): string {
  return posix.join(posix.dirname(file), target);
}

function isAllowed(each: Import): boolean {
  const path = resolved(each);
  const there = layerOf(path);
  if (there === each.layer) return true;
  const allowed = MAY_IMPORT[each.layer] ?? [];
  return allowed.includes(there) || (path === 'engine/index.ts' && allowed.includes('engine/index'));
}

function told({ file, target }: Import): string {
  return `${file} imports ${target}`;
}

describe('imports', () => {
  test('are seen: every layer has some', () => {
    expect(FILES.length).toBeGreaterThan(100);
    expect(OURS.length).toBeGreaterThan(300);
    expect(FILES.map(layerOf).filter((layer) => MAY_IMPORT[layer] === undefined)).toEqual([]);
  });

  test('between layers go the way of the data', () => {
    expect(OURS.filter((each) => !isAllowed(each)).map(told)).toEqual([]);
  });

  test('name files with their ending', () => {
    expect(OURS.filter(({ target }) => !/\.(ts|js)$/.test(target)).map(told)).toEqual([]);
  });

  test('of libraries stand in the layer that owns them', () => {
    const isOwn = ({ layer, target }: Import) =>
      (LIBRARIES[layer] ?? []).some((name) => target === name || target.startsWith(`${name}/`));
    const libraries = OTHERS.filter(({ target }) => !isNode(target));
    expect(libraries.filter((each) => !isOwn(each)).map(told)).toEqual([]);
  });

  test('of Node stand only where files are read and programs begin', () => {
    const node = OTHERS.filter(({ target }) => isNode(target));
    expect(node.filter(({ layer }) => !WITH_NODE.has(layer)).map(told)).toEqual([]);
    expect(node.filter(({ target }) => !target.startsWith('node:')).map(told)).toEqual([]);
  });
});

function isNode(target: string): boolean {
  return target.startsWith('node:') || builtinModules.includes(target);
}

describe('pure parts', () => {
  // The field page's script runs in a browser, and puts the time to each entry.
  const pure = FILES.filter((file) => !WITH_NODE.has(layerOf(file)) && layerOf(file) !== 'field');

  test.each([
    ['the console', /\bconsole\./],
    ['the clock', /\bDate\.now\(|\bnew Date\(\)|\bperformance\.now\(/],
    ['chance', /\bMath\.random\(/],
    ['the process', /\bprocess\.|\bglobalThis\b/],
  ])('use not %s', (_, pattern) => {
    const code = (file: string) =>
      readFileSync(join(SOURCES, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, '');
    expect(pure.filter((file) => pattern.test(code(file)))).toEqual([]);
  });
});
