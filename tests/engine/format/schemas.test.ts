import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { parse } from 'yaml';
import { SHAPES, VERSIONS } from '../../../server/src/engine/format/generated/shapes.ts';
import { VALIDATORS } from '../../../server/src/engine/format/generated/validators.js';
import { rangeOf } from '../../../server/src/engine/format/range.ts';
import type { DocumentKind, Shape } from '../../../server/src/engine/format/shape.ts';
import { kindNamed } from '../../../server/src/engine/quantity/kinds.ts';
import { parseQuantity } from '../../../server/src/engine/quantity/parse.ts';

const ROOT = join(import.meta.dirname, '../../..');
const SCHEMAS = join(ROOT, 'schemas');
const KINDS = Object.keys(SHAPES) as DocumentKind[];

type Tree = string | number | boolean | Tree[] | { [key: string]: Tree };

/** A fixture as the format layer hands it to the validators: scalars as source text but for numbers and yes or no. */
function readFixture(kind: DocumentKind): Tree {
  const text = readFileSync(join(import.meta.dirname, 'fixtures', `${kind}.yaml`), 'utf8');
  return convert(parse(text, { schema: 'failsafe' }) as Tree, SHAPES[kind]);
}

function convert(tree: Tree, shape: Shape | undefined): Tree {
  if (Array.isArray(tree)) return tree.map((item) => convert(item, shape?.item));
  if (typeof tree === 'object') {
    const entries = Object.entries(tree).map(([key, value]) => [key, convert(value, shapeAt(shape, key))]);
    return Object.fromEntries(entries) as Tree;
  }
  if (shape?.type === 'boolean') return ['yes', 'true'].includes(String(tree));
  return shape?.type === 'integer' || shape?.type === 'number' ? Number(tree) : tree;
}

function shapeAt(shape: Shape | undefined, key: string): Shape | undefined {
  return shape?.keys?.[key] ?? shape?.open;
}

/** The smallest document that says everything: one item in each list, one key in each open map. */
function fullInstance(shape: Shape): Tree {
  if (shape.type === 'list') return [fullInstance(shape.item!)];
  if (shape.type === 'map') return Object.fromEntries(fullEntries(shape));
  if (shape.type === 'boolean') return true;
  if (shape.type === 'integer' || shape.type === 'number') return 2;
  return Object.keys(shape.choices ?? {})[0] ?? 'text';
}

function fullEntries(shape: Shape): [string, Tree][] {
  const listed = Object.entries(shape.keys ?? {}).map(([key, child]): [string, Tree] => [key, fullInstance(child)]);
  return shape.open ? [...listed, ['subject.what-is-wrong', fullInstance(shape.open)]] : listed;
}

/** Every map in a tree, with its place. */
function* mapsOf(tree: Tree, place = ''): Generator<[string, { [key: string]: Tree }]> {
  if (typeof tree !== 'object') return;
  if (!Array.isArray(tree)) yield [place, tree];
  for (const [key, child] of Object.entries(tree)) yield* mapsOf(child, `${place}/${key}`);
}

function* leavesOf(shape: Shape, place: string): Generator<[string, Shape]> {
  yield [place, shape];
  for (const [key, child] of Object.entries(shape.keys ?? {})) yield* leavesOf(child, `${place}.${key}`);
  for (const child of [shape.open, shape.item]) if (child) yield* leavesOf(child, `${place}[]`);
}

/** The shapes that a tree has entries of, as text: what two kinds of document share is covered by either. */
function* coveredBy(tree: Tree, shape: Shape | undefined): Generator<string> {
  if (shape) yield JSON.stringify(shape);
  if (Array.isArray(tree)) for (const item of tree) yield* coveredBy(item, shape?.item);
  if (typeof tree !== 'object' || Array.isArray(tree)) return;
  for (const [key, value] of Object.entries(tree)) yield* coveredBy(value, shapeAt(shape, key));
}

describe.each(KINDS)('%s', (kind) => {
  it('accepts the fixture, which holds the keys of the format', () => {
    VALIDATORS[kind](readFixture(kind));
    expect(VALIDATORS[kind].errors ?? []).toEqual([]);
  });

  it('has no key that the fixtures leave out', () => {
    const covered = new Set(KINDS.flatMap((each) => [...coveredBy(readFixture(each), SHAPES[each])]));
    const left = [...leavesOf(SHAPES[kind], kind)].filter(([, shape]) => !covered.has(JSON.stringify(shape)));
    expect(left.map(([place]) => place)).toEqual([]);
  });

  it('accepts a document that says everything that its shape lists', () => {
    VALIDATORS[kind](fullInstance(SHAPES[kind]));
    expect(VALIDATORS[kind].errors ?? []).toEqual([]);
  });

  it('refuses an unknown key in every map, once, and carries an x_ key there', () => {
    const document = fullInstance(SHAPES[kind]);
    for (const [place, map] of [...mapsOf(document)]) {
      map.x_own = { a: 1 };
      map['unknown key'] = 'text';
      VALIDATORS[kind](document);
      const errors = (VALIDATORS[kind].errors ?? []).map(({ instancePath, keyword }) => `${instancePath} ${keyword}`);
      expect(errors).toEqual([`${place} additionalProperties`]);
      delete map['unknown key'];
    }
  });

  it('has a title and a description at every key', () => {
    for (const [place, shape] of leavesOf(SHAPES[kind], kind)) {
      expect(shape.title, place).toMatch(/^[A-Z]/);
      expect(shape.title.length, place).toBeLessThan(45);
      expect(shape.description, place).toMatch(/^[A-Z\d`].*[.]$/);
    }
  });

  it('knows its version', () => {
    expect(Object.keys(SHAPES[kind].keys?.document?.choices ?? {})).toContain(`${kind}/${VERSIONS[kind]}`);
  });

  it('has usual units and plausible ranges that can be read as the kind', () => {
    for (const [place, { quantity }] of leavesOf(SHAPES[kind], kind)) {
      if (!quantity) continue;
      const { usual, plausible = [] } = quantity;
      const of = kindNamed(quantity.kind)!;
      const texts = [...usual.map((unit) => `1 ${unit}`), ...plausible];
      const read = texts.map((text) => parseQuantity(text, of));
      expect(
        read.flatMap(({ problems }) => problems),
        `${place}: ${texts.join(', ')}`,
      ).toEqual([]);
      const [low, high] = read.slice(usual.length).map((result) => result.quantity?.value ?? Number.NaN);
      if (plausible.length > 0) expect(low, place).toBeLessThan(high!);
      expect(quantity.range, place).toEqual(rangeOf(quantity.kind, plausible));
    }
  });
});

test('what must be there is what the format says', () => {
  const missing = (kind: DocumentKind, tree: Tree) => {
    VALIDATORS[kind](tree);
    return (VALIDATORS[kind].errors ?? []).map((error) => `${error.instancePath}/${error.params.missingProperty}`);
  };
  const installation = { site: {}, operation: {}, equipment: {} };
  expect(missing('installation', {})).toEqual(['/document', '/site', '/lift', '/equipment', '/operation']);
  expect(missing('installation', { ...installation, document: 'installation/1', lift: 'rotary' })).toEqual([
    '/site/well',
    '/operation/cases',
  ]);
  expect(missing('motor', {})).toEqual(['/document', '/name']);
  expect(missing('transformer', { document: 'transformer/1', name: 'a', taps: [{}] })).toEqual([
    '/taps/0/tap',
    '/taps/0/voltage',
  ]);
  expect(missing('pump', { document: 'pump/1', name: 'a', curve: { points: [{}] } })).toEqual([
    '/curve/points/0/rate',
    '/curve/points/0/head',
    '/curve/points/0/power',
  ]);
  expect(missing('readings', { document: 'readings/1', readings: [{}] })).toEqual(['/readings/0/item']);
});

test('the main cable is one run or a list of runs', () => {
  const main = SHAPES.installation.keys?.equipment?.keys?.cable?.keys?.main;
  expect(main).toMatchObject({ type: 'map', alsoList: true, item: { type: 'map' } });
  expect(Object.keys(main?.item?.keys ?? {})).toEqual(Object.keys(main?.keys ?? {}));
});

test('shared parts stand once', () => {
  const { installation, readings } = SHAPES;
  expect(readings.keys?.as_left?.keys?.protection).toBe(installation.keys?.setpoints?.keys?.protection);
});

test('the schemas as written, references and all, accept and refuse the same', async () => {
  const vocabulary = JSON.parse(await readFile(join(SCHEMAS, 'vocabulary.schema.json'), 'utf8'));
  // What a map takes over by reference is typed and listed there, out of these two rules' sight.
  const ajv = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false });
  ajv.addVocabulary(Object.keys(vocabulary.properties));
  ajv.addMetaSchema(vocabulary, './vocabulary.schema.json');
  for (const name of await readdir(SCHEMAS)) {
    if (!/vocabulary|-output/.test(name)) ajv.addSchema(JSON.parse(await readFile(join(SCHEMAS, name), 'utf8')), name);
  }
  for (const kind of KINDS) {
    const validate = ajv.getSchema(`${kind}.schema.json`)!;
    const document = readFixture(kind) as { [key: string]: Tree };
    expect(validate(document), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...document, unknown: 1 })).toBe(false);
  }
});

const FINGERPRINT = `sha256:${'0e'.repeat(32)}`;
const RANGE = { start: { line: 70, character: 17 }, end: { line: 70, character: 18 } };
const OUTPUTS: Record<string, Record<string, unknown>> = {
  check: {
    setproof: 1,
    files: [
      {
        path: 'wells/1-10.yaml',
        document: 'installation/1',
        fingerprint: FINGERPRINT,
        findings: [
          {
            check: 'tap.below-window',
            severity: 'error',
            message: 'Tap 3 is short.',
            key: 'setpoints.transformer.tap',
            range: RANGE,
            case: 'target',
            value: { number: 980, unit: 'V' },
            limit: { number: 1042, unit: 'V' },
            related: [{ path: 'a.yaml', key: 'length', range: RANGE, message: 'The run.' }],
            fixes: ['Use tap 4'],
          },
        ],
        checks: {
          passed: [{ check: 'tap.thin-margin', margin: { number: 0.04, unit: 'V' } }, 'fit.clearance'],
          notApplicable: ['pump.thrust'],
          notRun: [{ check: 'well.dogleg', missing: ['well.survey'] }],
          deviated: [],
          setAside: [],
        },
      },
    ],
    summary: { files: 1, ignored: 0, errors: 1, warnings: 0, notes: 0, deviated: 0, notRun: 1 },
  },
  worksheet: {
    setproof: 1,
    values: [
      {
        id: 'cable.voltage_drop',
        case: 'target',
        number: 21.4,
        unit: 'V',
        formula: 'a',
        source: 'b',
        inputs: [{ key: 'fluid.water_cut', number: 0.4, unit: '', default: false }, { id: 'motor.current' }],
      },
    ],
    unavailable: [{ id: 'transformer.tap_min', case: null, missing: ['equipment.motor'] }],
    windows: [
      {
        setpoint: 'setpoints.protection.overload.trip',
        value: 11,
        unit: 'A',
        lower: [{ id: 'overload.below-running', number: 9, hard: true, reason: 'a', source: 'b', case: 'target' }],
        upper: [],
        recommended: null,
        margin: 2,
      },
    ],
  },
  checklist: {
    setproof: 1,
    installation: 'wells/1-10.yaml',
    fingerprint: FINGERPRINT,
    stages: Array.from({ length: 8 }, (_, index) => ({
      id: `stage${index}`,
      title: 'Stage',
      steps: [{ id: `stage${index}.a`, kind: 'read', text: 'Read it.', unit: 'V', limit: { min: 1, max: 2 } }],
    })),
  },
};

test.each(Object.entries(OUTPUTS))(
  'the schema of the output of %s takes an example of it',
  async (command, example) => {
    const schema = JSON.parse(await readFile(join(SCHEMAS, `${command}-output.schema.json`), 'utf8'));
    const validate = new Ajv2020({ strict: true, strictRequired: false, allowUnionTypes: true }).compile(schema);
    expect(validate({ ...example, added: 'later' }), JSON.stringify(validate.errors)).toBe(true);
    for (const key of Object.keys(example)) expect(validate({ ...example, [key]: undefined }), key).toBe(false);
  },
);

describe('the generator', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'setproof-schemas-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  /** Runs the generator on the schemas with one text replaced; gives its standard error, or "" if it took them. */
  function generateWith(file: string, before: string, after: string): string {
    cpSync(SCHEMAS, folder, { recursive: true });
    const text = readFileSync(join(folder, file), 'utf8');
    expect(text, 'the text to be replaced is there').toContain(before);
    writeFileSync(join(folder, file), text.replace(before, after));
    return run(['--schemas', folder, '--output', join(folder, 'out')]);
  }

  function run(options: string[]): string {
    try {
      execFileSync(process.execPath, [join(ROOT, 'build/generate.mjs'), ...options], { stdio: 'pipe' });
      return '';
    } catch (error) {
      return String((error as { stderr: Buffer }).stderr);
    }
  }

  it('writes what stands in the tree, and the same again', async () => {
    const out = join(folder, 'again');
    expect(run(['--output', out])).toBe('');
    for (const name of await readdir(out)) {
      const standing = join(ROOT, 'server/src/engine/format/generated', name);
      expect(await readFile(join(out, name), 'utf8'), name).toBe(await readFile(standing, 'utf8'));
    }
    expect(await readFile(join(out, 'validators.js'), 'utf8')).not.toMatch(/\brequire\(|\bimport\b/);
  });

  it.each([
    ['an undeclared keyword', 'policy', '"title": "Limit"', '"colour": "red", "title": "Limit"', /keyword "colour"/],
    ['an unknown kind', 'equipment', '"kind": "mass"', '"kind": "weight"', /pump\.mass: "weight" is no kind/],
    [
      'a missing description',
      'readings',
      '"description": "Who read or signed it."',
      '"examples": ["a"]',
      /\.by: has no/,
    ],
    ['branches', 'policy', '"title": "Ignore"', '"anyOf": [], "title": "Ignore"', /anyOf turns one misspelling/],
    ['an open map', 'readings', '"unevaluatedProperties": false', '"required": []', /readings: takes any key/],
    [
      'a choice without its text',
      'common',
      '"motor", "drive"',
      '"motor", "none", "drive"',
      /other choices than its enum/,
    ],
    ['a broken reference', 'readings', '$defs/setpoints', '$defs/set_points', /set_points leads nowhere/],
    ['a key given anew', 'cable', '"document": {', '"mass": {}, "document": {', /gives mass anew/],
    ['a malformed annotation', 'drive', '"title": "Drive data sheet"', '"assumed": 3', /assumed: must be object/],
  ])('refuses %s', (_, name, before, after, message) => {
    expect(generateWith(`${name}.schema.json`, before, after)).toMatch(message);
  });
});
