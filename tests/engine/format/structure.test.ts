import { describe, expect, test } from 'vitest';
import { readDocument } from '../../../server/src/engine/index.ts';

function problemIn(lines: string) {
  const text = `document: installation/1\nsite: { well: A-1 }\nlift: linear\n${lines}\n`;
  const [problem] = readDocument('a.yaml', text).problems.filter(({ check }) => !check.endsWith('missing-key'));
  if (problem === undefined) throw new Error('nothing was found');
  return { message: problem.message, fixes: problem.fixes.map(({ title, kind }) => `${kind}: ${title}`) };
}

describe('what the schema finds wrong is said with the way out', () => {
  test('a group of keys shows how it is written', () => {
    const { message } = problemIn('well: { intake: 1210 m }');
    expect(message).toBe("'intake' takes a group of keys, not '1210 m'. Write it as { md: …, tvd: … }.");
  });

  test('a group of many keys begins with those that it needs', () => {
    expect(problemIn('operation: { cases: [ target ] }').message).toMatch(/\{ name: …, intake: …, .*… \}\.$/);
  });

  test('a slip in a word of a list is mended as spelling', () => {
    const { message, fixes } = problemIn('supply: { source: grit }');
    expect(message).toContain("Was 'grid' meant?");
    expect(fixes).toEqual(["mechanical: Write 'grid'"]);
  });

  test('a word cut short is offered, not mended: it is its author’s', () => {
    const { message, fixes } = problemIn('operation: { cases: [ { name: target, intake: flow } ] }');
    expect(message).toContain("Was 'flowing' meant?");
    expect(fixes).toEqual(["offer: Write 'flowing'"]);
  });

  test('a beginning of several words is none of them', () => {
    expect(problemIn('setpoints: { protection: { und: { trip: 4 A } } }').message).not.toContain('meant');
  });
});
