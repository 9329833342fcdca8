import { kindNamed } from '../quantity/kinds.ts';
import { parseQuantity } from '../quantity/parse.ts';
import type { Quantity } from '../quantity/types.ts';
import { parseText } from '../syntax/parse.ts';
import { resolvePlain } from '../syntax/scalars.ts';
import { NONE, type NodeIndex, ScalarStyle, type SyntaxTree } from '../syntax/tree.ts';
import type { Problem, TextFix } from '../text/problem.ts';
import type { Document } from './document.ts';
import { SHAPES } from './generated/shapes.ts';
import { readLabel, shorten } from './kind.ts';
import { implausible } from './plausible.ts';
import type { QuantityShape, Shape } from './shape.ts';
import { structuralProblems } from './structure.ts';
import { systemProblems } from './systems.ts';

/** Reads a text as a document: its kind, the shape and quantity of each node, and all that is wrong with its writing. */
export function readDocument(path: string, text: string): Document {
  const { source, tree, problems: syntaxProblems } = parseText(text);
  const { kind, label, ours, problems: labelProblems } = readLabel(tree);
  const base = { path, source, tree, kind, label, ours: ours || (syntaxProblems.length > 0 && claimsToBeOurs(text)) };
  const written = [...syntaxProblems, ...labelProblems];
  if (kind === undefined) return { ...base, shapes: [], quantities: [], problems: written };
  const reader = new Reader(tree, syntaxProblems);
  const content = reader.read(tree.root, SHAPES[kind]);
  const structure = structuralProblems(kind, content, tree, reader.shapes, syntaxProblems);
  const systems = systemProblems(kind, tree, reader.quantities);
  return {
    ...base,
    shapes: reader.shapes,
    quantities: reader.quantities,
    problems: [...written, ...reader.problems, ...structure, ...systems],
  };
}

/**
 * Whether a text that cannot be read right says that it is ours. Repositories hold YAML of others, with tags or templates
 * that we refuse, and must not be stopped by it; a text saved as UTF-16 has a zero beside each of its letters.
 */
function claimsToBeOurs(text: string): boolean {
  return /^[^\w\s]{0,4}document["']?\s*:/m.test(text.replaceAll('\0', ''));
}

/** Turns the tree into the plain value that the validators want, reading quantities on the way. */
class Reader {
  readonly shapes: (Shape | undefined)[];
  readonly quantities: (Quantity | undefined)[];
  readonly problems: Problem[] = [];
  readonly #tree: SyntaxTree;
  readonly #troubled: readonly Problem[];

  constructor(tree: SyntaxTree, syntaxProblems: readonly Problem[]) {
    this.#tree = tree;
    this.#troubled = syntaxProblems;
    this.shapes = new Array(tree.size).fill(undefined);
    this.quantities = new Array(tree.size).fill(undefined);
  }

  read(node: NodeIndex, shape: Shape | undefined): unknown {
    this.shapes[node] = shape;
    const tree = this.#tree;
    if (tree.isMapping(node)) return this.#readMap(node, shape);
    if (tree.isSequence(node)) return this.#readList(node, shape);
    return this.#readScalar(node, shape);
  }

  #readMap(node: NodeIndex, shape: Shape | undefined): Record<string, unknown> {
    const tree = this.#tree;
    const content: Record<string, unknown> = {};
    for (let child = tree.firstChild(node); child !== NONE; child = tree.nextSibling(child)) {
      const key = tree.key(child);
      const value = this.read(child, childShape(shape, key));
      if (tree.isAbsent(child)) this.#reportEmpty(child, shape, key);
      // A key named like this would become the prototype of the plain value.
      else if (key !== '__proto__') content[key] = value;
    }
    return content;
  }

  #readList(node: NodeIndex, shape: Shape | undefined): unknown[] {
    const tree = this.#tree;
    const items: unknown[] = [];
    for (let child = tree.firstChild(node); child !== NONE; child = tree.nextSibling(child)) {
      items.push(this.read(child, shape?.item));
    }
    return items;
  }

  #readScalar(node: NodeIndex, shape: Shape | undefined): unknown {
    const tree = this.#tree;
    const text = tree.scalar(node);
    if (tree.isAbsent(node)) return null;
    switch (shape?.type) {
      case 'quantity':
        this.#readQuantity(node, text, shape.quantity as QuantityShape);
        return text;
      case 'text':
        if (shape.date === true) this.#readDate(node, text);
        return text;
      case 'choice':
        return text;
      case 'boolean':
        return booleanOf(text);
      default:
        return tree.style(node) === ScalarStyle.plain ? resolvePlain(text) : text;
    }
  }

  #readDate(node: NodeIndex, text: string): void {
    if (isDate(text) || this.#isTroubled(node)) return;
    this.problems.push({
      check: 'document.wrong-type',
      message: `'${shorten(text)}' is not a date as it is written here: year, month and day, such as 2026-03-14.`,
      span: this.#tree.span(node),
      fixes: [],
    });
  }

  #readQuantity(node: NodeIndex, text: string, shape: QuantityShape): void {
    const kind = kindNamed(shape.kind);
    if (kind === undefined || this.#isTroubled(node)) return;
    const { quantity, problems } = parseQuantity(text, kind);
    this.quantities[node] = quantity;
    const base = this.#contentStart(node);
    const span = this.#tree.span(node);
    for (const problem of problems) {
      this.problems.push({
        check: problem.check,
        message: problem.message,
        span: this.#isVerbatim(node, text)
          ? { start: base + problem.start, end: base + Math.max(problem.end, problem.start + 1) }
          : span,
        fixes: problem.fixes.map((fix): TextFix => ({ ...fix, edits: [{ span, newText: asScalar(fix.newText) }] })),
      });
    }
    const far = quantity === undefined ? undefined : implausible(quantity, shape, kind);
    if (far === undefined) return;
    const severity = far.impossible ? 'error' : 'warning';
    const fixes = far.meant.map(
      (meant): TextFix => ({
        title: `Write ${meant}, and what rests on it follows`,
        kind: 'offer',
        edits: [{ span, newText: asScalar(meant) }],
      }),
    );
    this.problems.push({ check: 'units.implausible', severity, message: far.message, span, fixes });
    // One cause, one finding: what rests on such a number is not run, instead of being wrong in ten more places.
    if (far.impossible) this.quantities[node] = undefined;
  }

  #reportEmpty(node: NodeIndex, parent: Shape | undefined, key: string): void {
    const known = childShape(parent, key) !== undefined;
    if (!known || this.#isTroubled(node)) return;
    this.problems.push({
      check: 'document.wrong-type',
      message: `'${key}' has no value; give it one, or take the key out.`,
      span: this.#tree.keySpan(node),
      fixes: [],
    });
  }

  /** Whether syntax has already said something of this very entry; it would be said twice. */
  #isTroubled(node: NodeIndex): boolean {
    if (this.#troubled.length === 0) return false;
    const { start } = this.#tree.keySpan(node);
    const line = this.#tree.source.positionAt(start).line;
    return this.#troubled.some(({ span }) => this.#tree.source.positionAt(span.start).line === line);
  }

  #contentStart(node: NodeIndex): number {
    const quoted = this.#tree.style(node) === ScalarStyle.single || this.#tree.style(node) === ScalarStyle.double;
    return this.#tree.span(node).start + (quoted ? 1 : 0);
  }

  /** Whether the scalar stands in the source just as it is read, so that offsets in one are offsets in the other. */
  #isVerbatim(node: NodeIndex, text: string): boolean {
    const start = this.#contentStart(node);
    return this.#tree.source.text.startsWith(text, start);
  }
}

function childShape(shape: Shape | undefined, key: string): Shape | undefined {
  if (shape?.keys !== undefined && Object.hasOwn(shape.keys, key)) return shape.keys[key];
  if (shape?.open === undefined) return undefined;
  return shape.openPattern === undefined || new RegExp(shape.openPattern).test(key) ? shape.open : undefined;
}

const YES = new Set(['yes', 'true', 'Yes', 'True', 'YES', 'TRUE', 'on']);
const NO = new Set(['no', 'false', 'No', 'False', 'NO', 'FALSE', 'off']);

function booleanOf(text: string): boolean | string {
  if (YES.has(text)) return true;
  return NO.has(text) ? false : text;
}

/** A day of the calendar as ISO 8601 writes it. */
function isDate(text: string): boolean {
  const [, year = '', month = '', day = ''] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  const days = new Date(Date.UTC(Number(year), Number(month), 0)).getUTCDate();
  return year !== '' && Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= days;
}

/** Quotes a text that YAML would not read back as it is. */
function asScalar(text: string): string {
  return /^[\w.+−-]/.test(text) && !/: |\s#|,/.test(text) ? text : `'${text.replaceAll("'", "''")}'`;
}
