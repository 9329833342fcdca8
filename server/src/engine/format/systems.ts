import { formatMeasure } from '../quantity/format.ts';
import type { Quantity, Reference, UnitSystem } from '../quantity/types.ts';
import { findUnit } from '../quantity/units.ts';
import { NONE, type NodeIndex, type SyntaxTree } from '../syntax/tree.ts';
import type { Problem, TextFix } from '../text/problem.ts';
import type { DocumentKind } from './shape.ts';

type Quantities = readonly (Quantity | undefined)[];

/** Notes on how quantities are written in a file as a whole: two systems of units for one kind, bare pressures. */
export function systemProblems(kind: DocumentKind, tree: SyntaxTree, quantities: Quantities): readonly Problem[] {
  const bare = kind === 'installation' ? unstatedReference(tree, quantities) : undefined;
  return [...mixedSystems(tree, quantities), ...(bare === undefined ? [] : [bare])];
}

interface Usage {
  readonly metric: NodeIndex[];
  readonly oilfield: NodeIndex[];
}

function mixedSystems(tree: SyntaxTree, quantities: Quantities): Problem[] {
  const byKind = new Map<string, Usage>();
  for (let node = 0; node < quantities.length; node++) {
    const quantity = quantities[node];
    const system = quantity === undefined ? 'both' : systemOf(quantity);
    if (quantity === undefined || system === 'both') continue;
    const usage = byKind.get(quantity.kind.name) ?? { metric: [], oilfield: [] };
    usage[system].push(node);
    byKind.set(quantity.kind.name, usage);
  }
  return [...byKind.values()].flatMap((usage) => mixedProblem(tree, quantities, usage) ?? []);
}

function systemOf({ unit }: Quantity): UnitSystem {
  return findUnit(unit)?.unit.system ?? 'both';
}

function mixedProblem(tree: SyntaxTree, quantities: Quantities, { metric, oilfield }: Usage): Problem | undefined {
  const [fewer, more] = metric.length < oilfield.length ? [metric, oilfield] : [oilfield, metric];
  const odd = fewer[0];
  const usual = more[0];
  if (odd === undefined || usual === undefined) return undefined;
  const { kind, unit } = quantities[odd] as Quantity;
  const other = (quantities[usual] as Quantity).unit;
  return {
    check: 'units.mixed-systems',
    message: `This file writes ${kind.phrase} in ${unit} here and in ${other} elsewhere; one system reads more safely.`,
    span: tree.span(odd),
    fixes: inUnit(tree, odd, quantities[odd] as Quantity, other),
  };
}

/** The offer to write a quantity in another unit, rounded as everything that is computed. */
function inUnit(tree: SyntaxTree, node: NodeIndex, quantity: Quantity, unit: string): readonly TextFix[] {
  const { kind, value, reference } = quantity;
  if (tree.isSequence(node) || quantity.tolerance > 0) return [];
  const newText = formatMeasure(value, kind, unit, reference);
  const edits = [{ span: tree.span(node), newText }];
  return [{ title: `Write ${newText}, the same to four digits`, kind: 'offer', edits }];
}

function statedAs(tree: SyntaxTree, node: NodeIndex, { number, unit }: Quantity, reference: Reference): TextFix {
  const newText = `${number} ${unit}(${reference === 'gauge' ? 'g' : 'a'})`;
  const edits = [{ span: tree.span(node), newText }];
  const as = reference === 'gauge' ? 'as it is read now' : 'one atmosphere less than it is read now';
  return { title: `Write ${newText}, ${as}`, kind: 'offer', edits };
}

function unstatedReference(tree: SyntaxTree, quantities: Quantities): Problem | undefined {
  if (tree.find('conventions.pressure') !== NONE) return undefined;
  const node = quantities.findIndex((each) => each?.kind.point === 'pressure' && each.reference === undefined);
  const quantity = quantities[node];
  if (quantity === undefined) return undefined;
  return {
    check: 'units.reference-unstated',
    message:
      `'${tree.scalar(node)}' does not say whether it is gauge or absolute, and neither does 'conventions.pressure'; ` +
      `it is read as gauge. Say so there, or write ${quantity.unit}(g) or ${quantity.unit}(a).`,
    span: tree.span(node),
    fixes: (['gauge', 'absolute'] as const).map((reference) => statedAs(tree, node, quantity, reference)),
  };
}
