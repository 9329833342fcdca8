import { type Hover, MarkupKind } from 'vscode-languageserver';
import {
  type BoundReading,
  CATALOGUE,
  CheckContext,
  convertText,
  type Evaluation,
  type NetworkNode,
  NONE,
  type Shape,
  type WindowReading,
} from '../engine/index.ts';
import { escapeMarkdown as escaped } from '../render/markdown/escape.ts';
import { markdownTable } from '../render/markdown/table.ts';
import { shownOf } from '../render/worksheet/values.ts';
import { caseIndices, valuesDrivenBy } from './driven-values.ts';
import { code, paragraphs } from './markdown.ts';
import type { Subject } from './subject.ts';

const MOST_VALUES = 6;

/** What stands at a place: the format's text, the reading in other units, the window, and the values that it drives. */
export function hoverAt(subject: Subject): Hover | null {
  const { document, node, shape } = subject;
  if (node === NONE || shape === undefined || node === document.tree.root) return null;
  const value = paragraphs([
    describe(shape),
    checkText(subject),
    readingOf(subject),
    meaningOf(subject),
    windowText(subject),
    valuesText(subject),
  ]);
  const { start } = document.tree.keySpan(node);
  const { end } = document.tree.isScalar(node) ? document.tree.span(node) : document.tree.keySpan(node);
  return { contents: { kind: MarkupKind.Markdown, value }, range: document.source.rangeOf({ start, end }) };
}

/** The text of the format on a key; completion shows the same. */
export function describe(shape: Shape): string {
  const assumed = shape.assumed && `If absent: ${code(shape.assumed.value)} (${escaped(shape.assumed.source)}).`;
  const usual = shape.quantity?.usual.filter((unit) => unit !== '');
  const units = usual?.length ? `Usual units: ${usual.map(code).join(', ')}.` : undefined;
  return paragraphs([`**${escaped(shape.title)}**`, escaped(shape.description), assumed, units]);
}

/** Where a check is named, in a deviation or a policy: what it is about. */
function checkText({ document: { tree }, node }: Subject): string | undefined {
  const path = tree.path(node);
  const isNamed = /^(?:deviations\[\d+\]\.check|require\[\d+\])$/.test(path);
  const id = isNamed ? tree.scalar(node) : tree.path(tree.parent(node)) === 'checks' ? tree.key(node) : undefined;
  const check = CATALOGUE.find((each) => each.id === id);
  if (check === undefined) return undefined;
  const { title, compares, why, mend, source } = check;
  return paragraphs([
    `${code(check.id)}: ${escaped(title)} (${check.severity})`,
    `Compares ${escaped(compares)}.`,
    `${escaped(why)} ${escaped(mend)}`,
    `Source: ${escaped(source)}.`,
  ]);
}

/** The reading in the other units that are usual at this very key; nobody asks for a water cut in ppm. */
function readingOf({ document, node, shape }: Subject): string | undefined {
  const quantity = document.quantities[node];
  if (quantity === undefined) return undefined;
  const usual = new Set(shape?.quantity?.usual);
  const others = convertText(quantity).filter((text) => usual.has(unitOf(text)));
  const written = code(document.tree.scalar(node));
  return others.length === 0 ? undefined : `${written} is ${others.map(code).join(', ')}.`;
}

/** The unit in a measure, without what a pressure is measured from. */
function unitOf(measure: string): string {
  return measure.replace(/^\S+\s*/, '').replace(/\([ga]\)$/, '');
}

function meaningOf({ document, node, shape }: Subject): string | undefined {
  const choices = shape?.choices;
  if (choices === undefined) return undefined;
  const chosen = choices[document.tree.scalar(node)];
  return chosen === undefined
    ? Object.entries(choices)
        .map(([choice, meaning]) => `- ${code(choice)}: ${escaped(meaning)}`)
        .join('\n')
    : `${code(document.tree.scalar(node))}: ${escaped(chosen)}`;
}

function windowText({ file, document, node }: Subject): string | undefined {
  const key = document.tree.path(node);
  const reading = file.worked?.windows.find(({ window, applies }) => applies && window.setpoint === key);
  const evaluation = file.worked?.evaluation;
  if (reading === undefined || evaluation === undefined) return undefined;
  const show = (number: number) => showNumber(evaluation, 0, number, reading.window.kind, key);
  const bounds = reading.bounds.filter(({ number }) => Number.isFinite(number));
  if (bounds.length === 0) return undefined;
  const rows = bounds.map((each) => boundRow(evaluation, each, show(each.number)));
  return paragraphs([
    '**Its window**',
    markdownTable(['bound', 'value', 'case', 'source'], rows),
    recommendation(reading, evaluation, show),
  ]);
}

function boundRow(evaluation: Evaluation, { bound, caseIndex }: BoundReading, shown: string): readonly string[] {
  const side = bound.side === 'lower' ? '≥' : '≤';
  const name = caseIndex === undefined ? '' : escaped(evaluation.caseName(caseIndex));
  const soft = bound.hard ? '' : ' (for comfort)';
  return [`${escaped(bound.limitName)}${soft}`, `${side} ${escaped(shown)}`, name, escaped(bound.check.source)];
}

function recommendation(
  { window, recommended }: WindowReading,
  evaluation: Evaluation,
  show: (number: number) => string,
): string | undefined {
  if (recommended === undefined || window.recommendation === undefined) return undefined;
  const words = window.choice?.(evaluation, recommended)?.words ?? show(recommended);
  return `Recommended: **${escaped(words)}**, ${escaped(window.recommendation.rule)}.`;
}

function valuesText({ file, document, node }: Subject): string | undefined {
  const evaluation = file.worked?.evaluation;
  if (evaluation === undefined) return undefined;
  const driven = valuesDrivenBy(evaluation, document.tree.path(node));
  if (driven.length === 0) return undefined;
  const shown = driven.slice(0, MOST_VALUES).map((each) => valueText(evaluation, each));
  const rest = driven.length - MOST_VALUES;
  const more = rest > 0 ? `… and ${rest} more ${rest === 1 ? 'value' : 'values'}; the worksheet shows all.` : undefined;
  return paragraphs(['---', '**What it drives**', ...shown, more]);
}

/** A value per case, with its formula and source; what all cases have in common is said once. */
function valueText(evaluation: Evaluation, node: NetworkNode): string {
  const indices = caseIndices(evaluation, node).filter((at) => evaluation.numberOf(node, at) !== undefined);
  const { cases, values, formulas, sources } = columnsOf(evaluation, node, indices);
  const head = `*${escaped(node.declaration.title)}* ${code(node.declaration.id)}`;
  const basis = [formulas.shared, sources.shared && `(${sources.shared})`].filter(Boolean).join(' ');
  if (!node.perCase) return paragraphs([`${head}: ${values.shared}`, basis]);
  const isOne = [values, formulas, sources].every(({ shared }) => shared !== undefined);
  const isEvery = indices.length > 1 && indices.length === evaluation.caseCount;
  if (isOne && isEvery) return paragraphs([`${head}: ${values.shared} in every case`, basis]);
  const told = [cases, values, ...[formulas, sources].filter(({ shared }) => shared === undefined)];
  const rows = indices.map((_, row) => told.map(({ cells }) => cells[row] ?? ''));
  const names = told.map(({ name }) => name);
  return paragraphs([head, markdownTable(names, rows), basis]);
}

function columnsOf(evaluation: Evaluation, node: NetworkNode, indices: readonly number[]) {
  const column = (name: string, cell: (at: number) => string): Column => {
    const cells = indices.map(cell);
    return { name, cells, shared: new Set(cells).size === 1 ? cells[0] : undefined };
  };
  const method = (at: number) => evaluation.methodOf(node, at)?.method;
  return {
    cases: column('case', (at) => escaped(evaluation.caseName(at))),
    values: column('value', (at) => valueIn(evaluation, node, at)),
    formulas: column('formula', (at) => formulaText(method(at)?.formula ?? '')),
    sources: column('source', (at) => escaped(method(at)?.source ?? '')),
  };
}

interface Column {
  readonly name: string;
  readonly cells: readonly string[];
  /** What all its cells say. */
  readonly shared: string | undefined;
}

function valueIn(evaluation: Evaluation, node: NetworkNode, caseIndex: number): string {
  const number = evaluation.numberOf(node, caseIndex) ?? Number.NaN;
  const { id, kind } = node.declaration;
  return escaped(shownOf(evaluation, { id, kind, number, at: caseIndex }));
}

function formulaText(formula: string): string {
  return formula === '' ? '' : code(formula).replaceAll('|', '\\|');
}

function showNumber(evaluation: Evaluation, caseIndex: number, number: number, kind: string, key = ''): string {
  return new CheckContext(evaluation, caseIndex, '').show(number, kind, key);
}
