import type { Fix } from '../findings/finding.ts';
import type { RawFinding } from '../findings/raw.ts';
import type { Document } from '../format/document.ts';
import { implausible } from '../format/plausible.ts';
import { parseQuantity } from '../quantity/parse.ts';
import type { Quantity } from '../quantity/types.ts';
import type { NodeIndex } from '../syntax/tree.ts';

/** What may have been meant: other quantities at some entries, and the offer to write them. */
export interface Hypothesis {
  readonly quantities: ReadonlyMap<NodeIndex, Quantity>;
  readonly offer: Fix;
}

/** Each costs a run of all checks. */
const MOST = 10;
/** A decimal point or some zeros too many or too few. */
const FACTORS = [0.1, 10, 0.001, 1000] as const;
const DIGITS = 12;

/** Its offers are themselves guesses of a slip. */
const GUESSES = 'units.implausible';

/** What may have been meant where a finding says that entries are wrong: what it offers; else the usual slips. */
export function hypothesesOn(
  document: Document,
  finding: RawFinding,
  nodes: readonly NodeIndex[],
): readonly Hypothesis[] {
  const offered = (finding.fixes ?? []).flatMap((fix) => offeredBy(document, fix));
  if (offered.length > 0 && finding.check !== GUESSES) return offered;
  const texts = [
    nodes.map((node) => textsInOtherUnits(document, node)),
    nodes.map((node) => textsByFactor(document, node)),
  ];
  const slips = texts.flatMap((ofNodes) =>
    nodes.flatMap((node, at) => (ofNodes[at] ?? []).flatMap((text) => writtenInstead(document, finding, node, text))),
  );
  return [...offered, ...slips].slice(0, MOST);
}

function offeredBy(document: Document, offer: Fix): readonly Hypothesis[] {
  const quantities = new Map<NodeIndex, Quantity>();
  for (const { path, span, newText } of offer.edits) {
    const node = document.tree.nodeAt(span.start);
    const kind = document.quantities[node]?.kind;
    const quantity = kind === undefined || path !== document.path ? undefined : parseQuantity(newText, kind).quantity;
    if (quantity === undefined) return [];
    quantities.set(node, quantity);
  }
  return [{ quantities, offer }];
}

function writtenInstead(
  document: Document,
  { place }: RawFinding,
  node: NodeIndex,
  newText: string,
): readonly Hypothesis[] {
  const [written, shape] = [document.quantities[node], document.shapes[node]?.quantity];
  const quantity = written && parseQuantity(newText, written.kind).quantity;
  if (quantity === undefined || shape === undefined || implausible(quantity, shape, quantity.kind)) return [];
  const edits = [{ path: document.path, span: document.tree.span(node), newText }];
  const key = document.tree.path(node);
  const title = key === place.key ? `Write ${newText}` : `Write ${newText} for '${key}'`;
  return [{ quantities: new Map([[node, quantity]]), offer: { title, kind: 'offer', edits } }];
}

/** The same number in each other unit that is usual there, where that makes a difference that could be overlooked. */
function textsInOtherUnits({ quantities }: Document, node: NodeIndex): readonly string[] {
  const quantity = quantities[node];
  if (quantity === undefined || quantity.alternate !== undefined) return [];
  const { number, kind, unit } = quantity;
  return kind.usual.filter((usual) => usual !== unit && usual !== '').map((usual) => `${number} ${usual}`);
}

function textsByFactor({ quantities, tree }: Document, node: NodeIndex): readonly string[] {
  const number = quantities[node]?.number ?? 0;
  const [, unit] = /^[-+]?[\d.]+(.*)$/.exec(tree.scalar(node).trim()) ?? [];
  if (number === 0 || unit === undefined) return [];
  return FACTORS.map((factor) => `${Number((number * factor).toPrecision(DIGITS))}${unit}`);
}
