import { NONE, type NodeIndex, type SyntaxTree } from '../syntax/tree.ts';
import type { Problem, TextFix } from '../text/problem.ts';
import type { Span } from '../text/span.ts';
import { listed } from '../text/words.ts';
import { beginning, nearest } from './distance.ts';
import { type SchemaError, VALIDATORS } from './generated/validators.js';
import { shorten } from './kind.ts';
import type { DocumentKind, Shape } from './shape.ts';

/** What the schema finds wrong with a document: unknown and missing keys, wrong types. One problem a place. */
export function structuralProblems(
  kind: DocumentKind,
  content: unknown,
  tree: SyntaxTree,
  shapes: readonly (Shape | undefined)[],
  syntaxProblems: readonly Problem[],
): readonly Problem[] {
  const validate = VALIDATORS[kind];
  if (validate(content)) return [];
  const told = new Set<string>();
  const problems: Problem[] = [];
  for (const error of validate.errors ?? []) {
    // What could not be read may well be there: a missing key next to a broken line would be said of the same slip.
    if (error.keyword === 'required' && syntaxProblems.length > 0) continue;
    const problem = problemOf(error, tree, shapes);
    if (problem === undefined || syntaxProblems.some((each) => sameLine(tree, each.span, problem.span))) continue;
    const place = `${problem.check}@${problem.span.start}-${problem.span.end}:${problem.check.endsWith('missing-key') ? problem.message : ''}`;
    if (!told.has(place)) problems.push(problem);
    told.add(place);
  }
  return problems;
}

function problemOf(error: SchemaError, tree: SyntaxTree, shapes: readonly (Shape | undefined)[]): Problem | undefined {
  const node = nodeAtPointer(tree, error.instancePath);
  if (node === NONE) return undefined;
  const shape = shapes[node];
  switch (error.keyword) {
    case 'additionalProperties':
    case 'unevaluatedProperties':
      return unknownKey(tree, node, shape, keyIn(error, ['additionalProperty', 'unevaluatedProperty']));
    case 'required':
      return missingKey(tree, node, keyIn(error, ['missingProperty']));
    case 'enum':
      return notAChoice(tree, node, shape);
    default:
      return shape === undefined ? undefined : wrongType(tree, node, shape);
  }
}

function keyIn(error: SchemaError, names: readonly string[]): string {
  return names.map((name) => error.params[name]).find((each) => typeof each === 'string') ?? '';
}

function unknownKey(tree: SyntaxTree, parent: NodeIndex, shape: Shape | undefined, key: string): Problem | undefined {
  const node = tree.child(parent, key);
  if (node === NONE) return undefined;
  const span = tree.keySpan(node);
  const here = parent === tree.root ? 'in this document' : `under '${shorten(nameOf(tree, parent))}'`;
  const meant = meantBy(
    key,
    Object.keys(shape?.keys ?? {}).filter((each) => tree.child(parent, each) === NONE),
    span,
  );
  return {
    check: 'document.unknown-key',
    message: `The key '${shorten(key)}' is not known ${here}. ${meant?.hint ?? "Keys of one's own begin with 'x_'."}`,
    span,
    fixes: meant?.fixes ?? [],
  };
}

/** What a word of a closed list was meant to be. A slip is mended as spelling; a word cut short is its author's to say. */
function meantBy(word: string, words: readonly string[], span: Span) {
  const near = nearest(word, words);
  const meant = near ?? beginning(word, words);
  if (meant === undefined) return undefined;
  return { hint: `Was '${meant}' meant?`, fixes: [replace(span, meant, near === undefined ? 'offer' : 'mechanical')] };
}

function missingKey(tree: SyntaxTree, node: NodeIndex, key: string): Problem {
  const isRoot = node === tree.root;
  const owner = isRoot ? 'This document' : `'${shorten(nameOf(tree, node))}'`;
  return {
    check: 'document.missing-key',
    message: `${owner} needs the key '${key}'.`,
    span: isRoot ? firstKey(tree) : tree.keySpan(node),
    fixes: [],
  };
}

function notAChoice(tree: SyntaxTree, node: NodeIndex, shape: Shape | undefined): Problem {
  const choices = Object.keys(shape?.choices ?? {});
  const text = tree.scalar(node);
  if (!tree.isScalar(node) || choices.length === 0) return wrongType(tree, node, shape);
  const span = tree.span(node);
  const meant = meantBy(text, choices, span);
  const fact = `'${shorten(text)}' is none of the choices here, which are ${listed(choices)}.`;
  return {
    check: 'document.wrong-type',
    message: meant === undefined ? fact : `${fact} ${meant.hint}`,
    span,
    fixes: meant?.fixes ?? [],
  };
}

const DUE: Readonly<Record<Shape['type'], string>> = {
  map: 'a group of keys',
  list: 'a list',
  quantity: 'a number with its unit',
  text: 'a text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'yes or no',
  choice: 'one of a few words',
  any: 'something else',
};

function wrongType(tree: SyntaxTree, node: NodeIndex, shape: Shape | undefined): Problem {
  const due = shape?.alsoList ? 'a group of keys or a list of such groups' : DUE[shape?.type ?? 'any'];
  const found = tree.isMapping(node) ? 'a group of keys' : tree.isSequence(node) ? 'a list' : quoted(tree, node);
  const name = nameOf(tree, node);
  const subject = name === '' ? 'This document' : `'${shorten(name)}'`;
  const choices = Object.keys(shape?.choices ?? {});
  const hint = choices.length === 0 ? '' : `: ${choices.join(', ')}`;
  return {
    check: 'document.wrong-type',
    message: `${subject} takes ${due}${hint}, not ${found}.${wayToWrite(shape)}`,
    span: tree.isScalar(node) ? tree.span(node) : tree.keySpan(node),
    fixes: [],
  };
}

const MOST_SHOWN = 3;

/** How a group of keys is written, by its own first ones. */
function wayToWrite(shape: Shape | undefined): string {
  if (shape?.type !== 'map' || shape.keys === undefined) return '';
  const keys = [...new Set([...(shape.required ?? []), ...Object.keys(shape.keys)])];
  const shown = keys.slice(0, MOST_SHOWN).map((key) => `${key}: …`);
  return ` Write it as { ${[...shown, ...(keys.length > MOST_SHOWN ? ['…'] : [])].join(', ')} }.`;
}

function quoted(tree: SyntaxTree, node: NodeIndex): string {
  return tree.isAbsent(node) ? 'nothing' : `'${shorten(tree.scalar(node))}'`;
}

function nameOf(tree: SyntaxTree, node: NodeIndex): string {
  return tree.hasKey(node) ? tree.key(node) : tree.path(node);
}

function firstKey(tree: SyntaxTree): Span {
  const first = tree.firstChild(tree.root);
  return first === NONE ? tree.span(tree.root) : tree.keySpan(first);
}

function replace(span: Span, newText: string, kind: TextFix['kind']): TextFix {
  return { title: `Write '${newText}'`, kind, edits: [{ span, newText }] };
}

function sameLine(tree: SyntaxTree, a: Span, b: Span): boolean {
  return tree.source.positionAt(a.start).line === tree.source.positionAt(b.start).line;
}

/** The node that a JSON pointer of the validator names. */
function nodeAtPointer(tree: SyntaxTree, pointer: string): NodeIndex {
  let node = tree.root;
  for (const part of pointer.split('/').slice(1)) {
    const key = part.replaceAll('~1', '/').replaceAll('~0', '~');
    node = tree.isSequence(node) ? tree.item(node, Number(key)) : tree.child(node, key);
  }
  return node;
}
