import { describe, expect, it } from 'vitest';
import { readDocument } from '../../../server/src/engine/index.ts';

function problemsOf(date: string): readonly string[] {
  const text = `document: installation/1\nsite: { well: A }\nlift: linear\nequipment: {}\noperation: { cases: [] }\nrevision: { date: ${date} }\n`;
  return readDocument('a.yaml', text).problems.map(({ check, span }) => `${check} ${text.slice(span.start, span.end)}`);
}

describe('dates', () => {
  it.each(['2026-03-14', '"2026-03-14"', '2028-02-29'])('%s is one', (date) => {
    expect(problemsOf(date)).toEqual([]);
  });

  it.each(['20.05.2026', '2026-13-01', '2026-02-29', '14/03/2026', 'May'])(
    '%s is none, and is said at its place',
    (date) => {
      expect(problemsOf(date)).toEqual([`document.wrong-type ${date}`]);
    },
  );
});
