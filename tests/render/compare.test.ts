import { expect, test } from 'vitest';
import { compareFleets, Repository } from '../../server/src/engine/index.ts';
import { comparisonHtml } from '../../server/src/render/compare/html.ts';
import { comparisonMarkdown } from '../../server/src/render/compare/markdown.ts';
import type { CompareReport } from '../../server/src/render/compare/report.ts';

const WELLS = 1200;
const nameOf = (path: string) => path;

function side(trip: string) {
  const changes = Array.from({ length: WELLS }, (_, at) => ({
    path: `wells/a-long-enough-name-of-a-well-${at}.yaml`,
    text: `document: installation/1\nsite: { well: W-${at} }\nlift: linear\nsetpoints: { protection: { overload: { trip: ${trip} } } }\n`,
  }));
  return {
    repository: Repository.empty({ root: '', today: '2026-03-14', policy: 'none.yaml' }).update(changes),
    nameOf,
  };
}

const fleet = compareFleets(side('15 A'), side('16 A'));
const report: CompareReport = { fleet, nameOf, today: '2026-03-14', showsRewritten: false, before: 'a', after: 'b' };

test('Markdown of a large fleet stays within a comment, and says what it leaves out', () => {
  const text = comparisonMarkdown(report);
  expect(fleet.documents).toHaveLength(WELLS);
  expect(text.length).toBeLessThan(60_000);
  expect(text).toMatch(/not room for all in one comment: 1200 documents are told in brief and \d+ not named at all/);
});

test('a page has every document', () => {
  const { text } = comparisonHtml(report);
  expect(text.match(/<section /g)).toHaveLength(WELLS);
});
