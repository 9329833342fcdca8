import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseText } from '../../../server/src/engine/syntax/parse.ts';
import { examples } from '../../support/chance.ts';

const lines = (count: number, line: (n: number) => string) =>
  Array.from({ length: count }, (_, n) => line(n)).join('\n');
const checks = (text: string) => parseText(text).problems.map(({ check }) => check);

describe('limits answer with one clear problem', () => {
  it.each([
    ['more than 1 MiB', `a: ${'x'.repeat(1024 * 1024)}`, 'document.too-large'],
    ['more than 1 MiB in UTF-8', `a: ${'Ω'.repeat(600 * 1024)}`, 'document.too-large'],
    ['65 levels', '['.repeat(65) + ']'.repeat(65), 'document.too-large'],
    ['100 000 levels', '['.repeat(100_000), 'document.too-large'],
    ['levels after an error', `a: )\n@: {\n${'['.repeat(20_000)}`, 'document.syntax'],
    ['too many nodes', `[${'a,'.repeat(100_001)}]`, 'document.too-large'],
    [
      'a bomb of aliases',
      lines(
        10,
        (n) =>
          `a${n}: &a${n} [${
            n
              ? Array(10)
                  .fill(`*a${n - 1}`)
                  .join()
              : 'x'
          }]`,
      ),
      'document.alias-limit',
    ],
    ['a chain of aliases', lines(100, (n) => `a${n}: &a${n} [${n ? `*a${n - 1}` : 'x'}]`), 'document.alias-limit'],
    ['1001 anchors', lines(1001, (n) => `k${n}: &k${n} 1`), 'document.alias-limit'],
    ['NUL', 'a: 1\0', 'document.not-text'],
    ['a control character', 'a: \x07', 'document.not-text'],
    ['a lone surrogate', 'a: \ud800', 'document.not-text'],
    ['another encoding', 'a: \ufffd\ufffd\ufffd\ufffd\ufffd', 'document.not-text'],
  ])('%s', (_, text, check) => {
    const found = checks(text);
    expect(found[0]).toBe(check);
    if (check !== 'document.syntax') expect(found).toHaveLength(1);
  });

  it.each([
    ['64 levels', '['.repeat(64) + ']'.repeat(64)],
    ['a scalar of nearly 1 MiB', `a: ${'x'.repeat(1024 * 1024 - 4)}`],
    ['1000 anchors', lines(1000, (n) => `k${n}: &k${n} 1`)],
    ['a pair of surrogates', 'a: 😀'],
    ['20 000 keys', lines(20_000, (n) => `k${n}: 1`)],
  ])('%s are taken', (_, text) => {
    expect(checks(text)).toEqual([]);
  });

  it('20 000 duplicate keys are counted, and a hundred listed', () => {
    const { problems, tree } = parseText('a: 1\n'.repeat(20_000));
    expect(problems).toHaveLength(100);
    expect(problems.at(-1)?.message).toContain('19899 more problems');
    expect(tree.childCount(0)).toBe(20_000);
  });

  it('names the second of two equal keys in a mapping of any size', () => {
    for (const size of [3, 11, 12, 13, 40]) {
      const { problems, source } = parseText(`${lines(size, (n) => `k${n}: 1`)}\nk1: 2\n`);
      expect(problems.map(({ span }) => source.positionAt(span.start).line)).toEqual([size]);
      expect(problems[0]?.message).toContain('line 2');
    }
  });
});

describe('never throws', () => {
  const sign = fc.constantFrom(
    ...'{}[],:#&*!|>\'"%@`?- \t\n\r\\~<.ab10=\ufeff',
    ': ',
    '- ',
    '\n  ',
    '<<',
    '---',
    ' #',
    '\ud800',
    '\0',
  );

  it('on random signs', () => {
    fc.assert(
      fc.property(fc.array(sign, { maxLength: 60 }), (signs) => {
        const text = signs.join('');
        const { tree, problems } = parseText(text);
        for (const { span } of problems) {
          expect(span.start).toBeGreaterThanOrEqual(0);
          expect(span.end).toBeGreaterThanOrEqual(span.start);
          expect(span.end).toBeLessThanOrEqual(text.length);
        }
        for (let node = 0; node < tree.size; node++) {
          const { start, end } = tree.span(node);
          expect(start <= end && end <= text.length, tree.path(node)).toBe(true);
        }
      }),
      examples(1500),
    );
  });

  it('on random bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 80 }), (bytes) => {
        parseText(new TextDecoder().decode(bytes));
      }),
      examples(500),
    );
  });

  it('on masses of broken text', () => {
    for (const piece of [
      'a: b: c\n',
      '{',
      '- ',
      '&a ',
      'a:\tb\n',
      'a: "\n',
      '}\n',
      'k: > x\n',
      'a:1\n b:\n',
      "k: 'x\n",
      '? ',
      'x: {a: b: c, d\n',
    ]) {
      expect(checks(piece.repeat(30_000 / piece.length)).length, piece).toBeGreaterThan(0);
    }
  });
});
