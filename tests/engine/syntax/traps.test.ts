import { describe, expect, it } from 'vitest';
import { parseText } from '../../../server/src/engine/syntax/parse.ts';

type Row = readonly [text: string, check: string, fixes: readonly string[], values: Readonly<Record<string, string>>];

const syntax = 'document.syntax';
const comma = 'units.thousands-separator';

/** «…» marks the span of the one problem. Fixes: `!` mechanical, `?` offered. Values: what the tree holds afterwards. */
const rows: readonly Row[] = [
  ['a: { t: «1,850 V», d: 5 s }', comma, ['?1850 V', '?1.850 V'], { 'a.t': '1,850 V', 'a.d': '5 s' }],
  ['a: { t: «1,850,000 V» }', comma, ['?1850000 V'], { 'a.t': '1,850,000 V' }],
  ['a: { t: «12,5 bar», d: 1 }', comma, ['?12.5 bar'], { 'a.t': '12,5 bar', 'a.d': '1' }],
  ['a: { t: «0,850 m» }', comma, ['?0.850 m'], { 'a.t': '0,850 m' }],
  ['a: [«1,850 V», 2 V]', comma, ['?1850 V', '?1.850 V'], { 'a[0]': '1,850 V', 'a[1]': '2 V' }],
  ['a: {«trip:10 bar», b: 1}', syntax, ['!trip: 10 bar'], { 'a.trip': '10 bar', 'a.b': '1' }],
  ['a: 1\n«tap:6»\nb: 2', syntax, ['!tap: 6'], { a: '1', tap: '6', b: '2' }],
  ['s:\n  «tap:6»\nb: 2', syntax, ['!tap: 6'], { 's.tap': '6', b: '2' }],
  ['- «item:a» # note\n  x: 1', syntax, ['!item: a'], { '[0].item': 'a', '[0].x': '1' }],
  ['conductor: «#6 AWG»\nb: 1', syntax, ['?6 AWG', '!"#6 AWG"'], { conductor: '', b: '1' }],
  ['a: { conductor: «#6 AWG», c: 1 }\nb: 1', syntax, ['?6 AWG', '!"#6 AWG"'], { 'a.c': '1', b: '1' }],
  ['t: «&5 m»\nb: 1', syntax, ['?5 m'], { t: '&5 m', b: '1' }],
  ['a: {t: «&5 m», b: 1}', syntax, ['?5 m'], { 'a.t': '&5 m', 'a.b': '1' }],
  ['t: «>5 m»\nb: 1', syntax, ['?5 m'], { t: '>5 m', b: '1' }],
  ['t: «>5»\nb: 1', syntax, ['?5'], { t: '>5', b: '1' }],
  ['a: {t: «>5 m», b: 1}', syntax, ['?5 m'], { 'a.t': '>5 m', 'a.b': '1' }],
  ['t: «*5»\nb: 1', syntax, ['?5'], { t: '*5', b: '1' }],
  ['t: «*5 m»\nb: 1', syntax, ['?5 m'], { t: '*5 m', b: '1' }],
  ['n: «@x»\nb: 1', syntax, ['!"@x"'], { n: '@x', b: '1' }],
  ['n: «%10» # note\nb: 1', syntax, ['?10 %'], { n: '%10', b: '1' }],
  ['a: {n: «%10», b: 1}', syntax, ['?10 %'], { 'a.n': '%10', 'a.b': '1' }],
  ['reason: «a: b»\nc: 1', syntax, ['!"a: b"'], { reason: 'a: b', c: '1' }],
  ['reason: «say "a": b» # no\nc: 1', syntax, ['!"say \\"a\\": b"'], { reason: 'say "a": b', c: '1' }],
  ['x: { reason: «a: b», c: 1 }', syntax, ['!"a: b"'], { 'x.reason': 'a: b', 'x.c': '1' }],
  [
    'x: { md: «1210 m tvd: 1195 m», c: 1 }',
    syntax,
    ['?1210 m, tvd: 1195 m'],
    { 'x.md': '1210 m tvd: 1195 m', 'x.c': '1' },
  ],
  ['x: { name: «start, on kill fluid», c: 1 }', syntax, ['!"start, on kill fluid"'], { 'x.c': '1' }],
  ['t:«\t»10 bar\nb: 1', syntax, ['! '], { t: '10 bar', b: '1' }],
  ['a:\n«\t»b: 1\n\tc: 2\nd: 3', syntax, ['!  |  '], { 'a.b': '1', 'a.c': '2', d: '3' }],
  ['a: «"open»\nb: 1', syntax, ['!"open"'], { b: '1' }],
  ["a: «'it's'»\nb: 1", syntax, ['!"it\'s"'], { a: "'it's'", b: '1' }],
  ['x:\n  a: 1\n  «tr»\n  c: 2', syntax, [], { 'x.a': '1', 'x.c': '2' }],
  ['x:\n  a: 1\n    «b»: 2\n    c: 3\n  d: 4', syntax, [], { 'x.a': '1', 'x.d': '4' }],
  ['a: «{»b: 1\nc: 2', syntax, [], { 'a.b': '1', c: '2' }],
  ['a: {b: 1}«}»\nc: 2', syntax, ['!'], { 'a.b': '1', c: '2' }],
  ['«%YAML 1.2»\n---\na: 1', syntax, [], { a: '1' }],
  ['a: «!!str» 5', syntax, [], { a: '5' }],
  ['a: «!x» { b: 1 }', syntax, [], { 'a.b': '1' }],
  ['a: &x {b: 1}\nc: {«<<»: *x, d: 2}', syntax, [], { 'c.d': '2' }],
  ['«?» a\n: b\nc: 1', syntax, [], { a: 'b', c: '1' }],
  ['«{»a: 1}: b\nc: 1', syntax, [], { c: '1' }],
  ['«:» x\na: 1', syntax, [], { a: '1' }],
  ['---\na: 1\n«---»\nb: 2', syntax, [], { a: '1' }],
  ['a: 1\nb: 2\n«a»: 3', 'document.duplicate-key', [], { a: '1', b: '2' }],
  ['a: &a [«*a»]', 'document.alias-limit', [], { 'a[0]': '*a' }],
];

describe('each trap is one problem, at its place, and the rest is read', () => {
  it.each(rows)('%j', (marked, check, fixes, values) => {
    const start = marked.indexOf('«');
    const end = marked.indexOf('»') - 1;
    const { tree, problems } = parseText(marked.replace(/[«»]/g, ''));
    expect(problems.map((problem) => [problem.check, problem.span])).toEqual([[check, { start, end }]]);
    const spelled = problems[0]?.fixes.map(
      (fix) => (fix.kind === 'mechanical' ? '!' : '?') + fix.edits.map((edit) => edit.newText).join('|'),
    );
    expect(spelled).toEqual(fixes);
    for (const [path, value] of Object.entries(values)) expect(tree.scalar(tree.find(path)), path).toBe(value);
    expect(problems[0]?.message).toMatch(/^.*\.$/);
  });

  it('a mechanical fix mends what it is offered for', () => {
    for (const [marked] of rows) {
      const text = marked.replace(/[«»]/g, '');
      const fix = parseText(text).problems[0]?.fixes.find(({ kind }) => kind === 'mechanical');
      if (!fix) continue;
      const mended = [...fix.edits]
        .reverse()
        .reduce((before, { span, newText }) => before.slice(0, span.start) + newText + before.slice(span.end), text);
      expect(parseText(mended).problems, mended).toEqual([]);
    }
  });

  it('names the line of the first of two keys', () => {
    expect(parseText('a:\n  x: 1\n  y: 2\n  x: 3\n').problems[0]?.message).toContain('line 2');
  });

  it.each([
    '---\na: 1\n...\n',
    'a: &x {b: 1}\nc: *x\n',
    'u: http://host/x\nt: 12:30\nn: 1_000\n',
    'k: # a comment\n  a: 1\n',
    'k: #note\n',
    'a: [1,850]\n',
    'text: |\n  a: b: c\n  @x\n  \tyes\n',
    "q: 'a: b, #6'\n",
    '"a": {"b":1}\n',
    '',
    '# only a comment\n',
  ])('takes %j', (text) => {
    expect(parseText(text).problems).toEqual([]);
  });
});
