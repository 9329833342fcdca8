import { escapeMarkdown as md } from '../markdown/escape.ts';
import { textTable } from '../markdown/table.ts';
import { DEFERS } from '../text/lines.ts';
import type { CompareReport } from './report.ts';
import { type Block, type Item, type Section, sectionsOf, type Table } from './sections.ts';
import { totalsOf } from './words.ts';

/** What a comment takes at the services that are common, with room for a few words around it; characters. */
const MOST_CHARACTERS = 60_000;

/** How much is told of a document beside its line in the overview. */
type Extent = 'all' | 'without-details' | 'nothing';
const EXTENTS: readonly Extent[] = ['all', 'without-details', 'nothing'];

/**
 * A comparison as a comment on a pull request: a line for each document, then what changed in each; in no case longer
 * than a comment may be. Where there is not room for all, later documents are told in brief, and it says so.
 */
export function comparisonMarkdown(report: CompareReport): string {
  const sections = sectionsOf(report);
  const head = [
    `## Comparison of ${md(report.before)} with ${md(report.after)}`,
    md(totalsOf(report)),
    `*${md(DEFERS)}*`,
  ];
  const lines = fitting(
    sections.map(({ summary }) => `- ${md(summary)}`),
    MOST_CHARACTERS - lengthOf(head) - MOST_OF_NOTE,
  );
  const overview = [...head, lines.join('\n')];
  const texts: string[] = [];
  let room = MOST_CHARACTERS - lengthOf(overview) - MOST_OF_NOTE;
  let brief = 0;
  for (const section of sections) {
    const extent = EXTENTS.find((each) => told(section, each).length + 2 <= room) ?? 'nothing';
    if (extent !== 'all') brief++;
    texts.push(told(section, extent));
    room -= told(section, extent).length + 2;
  }
  const parts = [...overview, ...texts, shortened(brief, sections.length - lines.length)];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

/** Characters that are kept for the note on what is left out. */
const MOST_OF_NOTE = 300;

function shortened(brief: number, dropped: number): string {
  if (brief === 0) return '';
  const lost = dropped === 0 ? '' : ` and ${dropped} not named at all`;
  return `**There is not room for all in one comment: ${brief} documents are told in brief${lost}.** The whole is in the page that \`setproof compare --format html\` writes.`;
}

/** The first texts that fit into so many characters. */
function fitting(texts: readonly string[], room: number): readonly string[] {
  let used = 0;
  return texts.filter((text) => {
    used += text.length + 1;
    return used <= room;
  });
}

function lengthOf(texts: readonly string[]): number {
  return texts.reduce((sum, text) => sum + text.length + 2, 0);
}

function told({ title, blocks }: Section, extent: Extent): string {
  if (extent === 'nothing') return '';
  const shown = extent === 'all' ? blocks : blocks.filter(({ isDetail }) => !isDetail);
  return shown.length === 0 ? '' : [`### ${md(title)}`, ...shown.map(blockText)].join('\n\n');
}

function blockText(block: Block): string {
  const body = [itemsText(block.items), block.table === undefined ? '' : tableText(block.table)].filter(
    (part) => part !== '',
  );
  if (!block.isDetail) return [`#### ${md(block.title)}`, ...body].join('\n\n');
  return [`<details><summary>${md(block.title)}</summary>`, ...body, '</details>'].join('\n\n');
}

function itemsText(items: readonly Item[]): string {
  return items
    .map(({ lead, text, place }) => {
      const [before, after] = [lead === '' ? '' : `**${md(lead)}** `, place === '' ? '' : ` (${md(place)})`];
      return `- ${before}${md(text)}${after}`;
    })
    .join('\n');
}

function tableText({ head, rows }: Table): string {
  return rows.length === 0 ? '' : textTable(head, rows);
}
