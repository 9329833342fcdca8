import { placeOfDocument, placeOfNode } from '../../findings/places.ts';
import type { Document } from '../../format/document.ts';
import { type Toleranced, toleranced } from '../../links/corner.ts';
import { MOST_CASES } from '../../links/installation.ts';
import type { Outcome } from '../outcome.ts';
import { TOO_LARGE } from './too-large.ts';

/** Says that an installation has more operating cases than are worked out. */
export function reportCasesLeftOut(document: Document, outcome: Outcome): void {
  const { tree } = document;
  const cases = [...tree.children(tree.find('operation.cases'))];
  const first = cases[MOST_CASES];
  if (first === undefined) return;
  outcome.report({
    check: TOO_LARGE.id,
    severity: TOO_LARGE.severity,
    message: `There are ${cases.length} cases. The first ${MOST_CASES} are worked out and checked, the others are not. Keep the cases that decide something.`,
    place: placeOfNode(document, first),
  });
}

/** Each tolerance costs two more runs over all entries, so the product is bounded. */
const MOST_TOLERANCE_WORK = 50_000;

/** The toleranced entries of an installation and its data sheets that are taken to their ends; says if some are not. */
export function tolerancesTaken(
  document: Document,
  sheets: readonly Document[],
  outcome: Outcome,
): readonly Toleranced[] {
  const documents = [...new Set([document, ...sheets])];
  const entries = toleranced(documents);
  const most = Math.floor(MOST_TOLERANCE_WORK / documents.reduce((sum, { tree }) => sum + tree.size, 0));
  const first = entries[most];
  if (first === undefined) return entries;
  const taken = most === 0 ? 'none' : `the first ${most}`;
  outcome.report({
    check: TOO_LARGE.id,
    severity: TOO_LARGE.severity,
    message: `${entries.length} entries have a tolerance. In files of this size ${taken} can be taken to their ends; the others count as written. State tolerances where they matter, or shorten the lists.`,
    place: first.document === document ? placeOfNode(document, first.node) : placeOfDocument(document),
  });
  return entries.slice(0, most);
}
