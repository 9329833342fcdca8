import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseText } from '../../../server/src/engine/syntax/parse.ts';
import { examples } from '../../support/chance.ts';
import { listing, parseFast, parseGenerally } from './both.ts';

const word = fc.stringMatching(/^[a-z][a-z_]{0,7}$/);
const plain = fc.constantFrom(
  '1850 m',
  '010',
  '1_000',
  '12:30',
  '1.10',
  '00123',
  '-5 degC',
  '~',
  'yes',
  '2 7/8 in',
  'a#b',
  'Ω',
);
const quoted = fc.constantFrom('"a: b"', "'it''s'", '"x\\ty"', '""', "'#6, {'", '"\\u00e9 \\"q\\""');
const scalar = fc.oneof(plain, quoted);

const flow: fc.Arbitrary<string> = fc.letrec((tie) => ({
  value: fc.oneof({ depthSize: 'small' }, scalar, tie('mapping'), tie('sequence')),
  mapping: fc
    .uniqueArray(fc.tuple(word, tie('value')), { selector: ([key]) => key, maxLength: 4 })
    .map((pairs) => `{ ${pairs.map(([key, value]) => `${key}: ${value}`).join(', ')} }`),
  sequence: fc.array(tie('value'), { maxLength: 4 }).map((items) => `[${items.join(', ')}]`),
})).value as fc.Arbitrary<string>;

const indented = (lines: string) => lines.replace(/^(?=.)/gm, '  ');
const literal = fc.tuple(fc.constantFrom('|', '>', '|-', '>+'), fc.array(word, { minLength: 1, maxLength: 3 }));
const leaf = fc.oneof(
  flow.map((value) => ` ${value}\n`),
  flow.map((value) => ` ${value}   # note\n`),
  literal.map(([header, lines]) => ` ${header}\n${lines.map((line) => `  ${line}\n`).join('')}`),
  fc.constant('\n'),
  fc.constant('   # nothing here\n'),
);
const block: fc.Arbitrary<string> = fc.letrec((tie) => ({
  entry: fc.oneof(
    { depthSize: 'small' },
    leaf,
    (tie('mapping') as fc.Arbitrary<string>).map((body) => `\n${indented(body)}`),
    tie('list'),
  ),
  list: fc
    .array(fc.oneof(scalar, flow), { minLength: 1, maxLength: 3 })
    .map((items) => `\n${items.map((item) => `  - ${item}\n`).join('')}`),
  mapping: fc
    .uniqueArray(fc.tuple(word, tie('entry') as fc.Arbitrary<string>), {
      selector: ([key]) => key,
      minLength: 1,
      maxLength: 4,
    })
    .map((pairs) => pairs.map(([key, entry]) => `${key}:${entry}`).join('')),
})).mapping as fc.Arbitrary<string>;

describe('both parsers agree', () => {
  it('on values, spans and problems of generated documents', () => {
    fc.assert(
      fc.property(block, fc.boolean(), (text, crlf) => {
        const written = crlf ? text.replaceAll('\n', '\r\n') : text;
        const fast = parseFast(written);
        const general = parseGenerally(written);
        expect(fast, 'the fast parser takes it').toBeDefined();
        expect(listing(general.tree)).toEqual(listing(fast!.tree));
        expect(general.problems).toEqual(fast!.problems);
      }),
      examples(400),
    );
  });

  it.each([
    'a: { t: 1,850 V, d: 5 s }',
    'a: {trip:10 bar, b: 1}',
    'conductor: #6 AWG\nb: 1',
    't: &5 m\nb: 1',
    't: >5\nb: 1',
    'a: !!str 5\nb: !x {c: 1}\n',
    'a: &x {b: [1, 2]}\nc: *x\nd: *x\n',
    'a: &x {b: 1}\nc: {<<: *x, d: 2}',
    'a: 1\nb: 2\na: 3',
    'a: &a [*a]',
    '---\na: 1\n---\nb: 2\n',
    '- a\n-\n- b: 1\n  c: 2\n- - d\n  - e\n',
    'a:\n- b\n- c\nd:\n',
    'a: b\n c\n\n d\ne: 1\n',
    '\uFEFFa: 1\r\nb: |\r\n  x\r\n  y\r\n',
    'a: >-\n\n  x\n  y\n\n# end\n',
    '{a: 1, "b":2, c}',
    '[a, [b, {c: d}], ]',
    'a: ""\nb: \'\'\n',
    '--- # c\na: 1\n...\n',
    'just text',
  ])('on %j', (text) => {
    const fast = parseFast(text);
    const general = parseGenerally(text);
    expect(listing(general.tree)).toEqual(listing(fast!.tree));
    expect(general.problems).toEqual(fast!.problems);
  });

  it.each(['a: [1, 2', 'a: "x', 'a: }', 'a: b: c', 'a:\n\tb: 1', '- a\nb: 1', 'a: "b" c', 'a: "\\q"', 'a: 1\n b: 2'])(
    'that %j is refused',
    (text) => {
      expect(parseFast(text)).toBeUndefined();
      expect(parseGenerally(text).problems.length).toBeGreaterThan(0);
    },
  );
});

describe('spans', () => {
  it('of keys and plain scalars are their characters in the source', () => {
    fc.assert(
      fc.property(block, (text) => {
        const { source, tree } = parseText(text);
        for (let node = 0; node < tree.size; node++) {
          if (tree.hasKey(node)) expect(source.slice(tree.keySpan(node))).toBe(tree.key(node));
          const written = source.slice(tree.span(node));
          if (tree.isScalar(node) && tree.style(node) === 0) expect(written).toBe(tree.scalar(node));
          if (tree.style(node) === 1 || tree.style(node) === 2) expect(written).toMatch(/^(["'])[\s\S]*\1$/);
          if (tree.style(node) > 2) expect(written).toMatch(/^[|>]/);
        }
      }),
      examples(300),
    );
  });

  it('of collections reach from the first character to the last', () => {
    const { source, tree } = parseText('a: { b: [1, 2, ], c: {} } # note\nd:\n  - x\n  - y: 1\n    z: 2\n\n');
    const at = (path: string) => source.slice(tree.span(tree.find(path)));
    expect(at('a')).toBe('{ b: [1, 2, ], c: {} }');
    expect(at('a.b')).toBe('[1, 2, ]');
    expect(at('a.c')).toBe('{}');
    expect(at('d')).toBe('- x\n  - y: 1\n    z: 2');
    expect(at('d[1]')).toBe('y: 1\n    z: 2');
  });

  it('of absent values are empty and right after the colon or dash', () => {
    const { tree } = parseText('a:\nb: { c: , d: }\ne:\n  -\n  - x\n');
    expect(tree.span(tree.find('a'))).toEqual({ start: 2, end: 2 });
    expect(tree.span(tree.find('b.c'))).toEqual({ start: 10, end: 10 });
    expect(tree.span(tree.find('b.d'))).toEqual({ start: 15, end: 15 });
    expect(tree.span(tree.find('e[0]'))).toEqual({ start: 24, end: 24 });
  });

  it('of what an alias stands for are the alias', () => {
    const { source, tree } = parseText('a: &x { b: [1, { c: 2 }] }\nd: *x\n');
    for (const path of ['d', 'd.b', 'd.b[0]', 'd.b[1]', 'd.b[1].c']) {
      expect(source.slice(tree.span(tree.find(path))), path).toBe('*x');
    }
    expect(tree.scalar(tree.find('d.b[1].c'))).toBe('2');
    expect(source.slice(tree.keySpan(tree.find('d')))).toBe('d');
  });
});
