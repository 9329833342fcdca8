import { NONE, type SyntaxTree } from '../syntax/tree.ts';
import type { Problem } from '../text/problem.ts';
import { shortened } from '../text/words.ts';
import { nearest } from './distance.ts';
import { SHAPES, VERSIONS } from './generated/shapes.ts';
import type { DocumentKind } from './shape.ts';

export const KIND_NAMES = Object.keys(VERSIONS) as readonly DocumentKind[];

/** What the first key says of a file. */
export interface Label {
  readonly kind: DocumentKind | undefined;
  /** As written; `unknown/0` where there is none. */
  readonly label: string;
  /** Whether the file claims to be a document of ours, or looks so much like one that silence would be wrong. */
  readonly ours: boolean;
  readonly problems: readonly Problem[];
}

const UNKNOWN = 'unknown/0';
const TELLING_KEYS = 3;

/** Reads the `document` key, and notices files that probably should have one. */
export function readLabel(tree: SyntaxTree): Label {
  const node = tree.child(tree.root, 'document');
  if (node !== NONE) return { ours: true, ...readVersion(tree, node) };
  const problem = misspeltLabel(tree) ?? forgottenLabel(tree);
  return { kind: undefined, label: UNKNOWN, ours: problem !== undefined, problems: problem ? [problem] : [] };
}

function readVersion(tree: SyntaxTree, node: number): Omit<Label, 'ours'> {
  const label = tree.scalar(node);
  const [, name = '', version = ''] = /^([a-z]+)\/(\d+)$/.exec(label) ?? [];
  const kind = KIND_NAMES.find((each) => each === name);
  const known = kind === undefined ? 0 : VERSIONS[kind];
  if (kind !== undefined && Number(version) === known) return { kind, label, problems: [] };
  const problem = kind === undefined ? unknownKind(tree, node) : unsupported(tree, node, kind);
  return { kind: undefined, label: label === '' ? UNKNOWN : label, problems: [problem] };
}

function unknownKind(tree: SyntaxTree, node: number): Problem {
  const label = tree.scalar(node);
  const name = label.split('/')[0] ?? '';
  const near = nearest(name, KIND_NAMES);
  const list = KIND_NAMES.map((kind) => `${kind}/${VERSIONS[kind]}`).join(', ');
  const span = tree.span(node);
  const fixed = near === undefined ? undefined : `${near}/${VERSIONS[near as DocumentKind]}`;
  return {
    check: 'document.wrong-type',
    message: `'${shorten(label)}' is no kind of document that Setproof knows; the kinds are ${list}.`,
    span,
    fixes: fixed ? [{ title: `Write '${fixed}'`, kind: 'mechanical', edits: [{ span, newText: fixed }] }] : [],
  };
}

function unsupported(tree: SyntaxTree, node: number, kind: DocumentKind): Problem {
  const message =
    `'${shorten(tree.scalar(node))}' is not a version that this Setproof reads; it knows ${kind}/${VERSIONS[kind]}. ` +
    'Use a Setproof that knows it, or write the file in the version known here.';
  return { check: 'document.unsupported-version', message, span: tree.span(node), fixes: [] };
}

function misspeltLabel(tree: SyntaxTree): Problem | undefined {
  const first = tree.firstChild(tree.root);
  if (first === NONE || !tree.hasKey(first) || nearest(tree.key(first), ['document']) === undefined) return undefined;
  const span = tree.keySpan(first);
  return {
    check: 'document.unmarked',
    message: `The first key is '${shorten(tree.key(first))}'; without a key 'document' this file is not checked.`,
    span,
    fixes: [{ title: "Write 'document'", kind: 'mechanical', edits: [{ span, newText: 'document' }] }],
  };
}

/** A file with several of the top keys of an installation is hardly anything else. */
function forgottenLabel(tree: SyntaxTree): Problem | undefined {
  if (!tree.isMapping(tree.root)) return undefined;
  const keys = SHAPES.installation.keys ?? {};
  const telling = [...tree.children(tree.root)].filter((node) => Object.hasOwn(keys, tree.key(node)));
  if (telling.length < TELLING_KEYS) return undefined;
  const start = tree.keySpan(telling[0] ?? 0);
  return {
    check: 'document.unmarked',
    message:
      "This file has keys of an installation but no key 'document', so it is not checked; " +
      "begin it with 'document: installation/1'.",
    span: start,
    fixes: [
      {
        title: "Begin with 'document: installation/1'",
        kind: 'offer',
        edits: [{ span: { start: start.start, end: start.start }, newText: 'document: installation/1\n' }],
      },
    ],
  };
}

/** Text of a document as quoted in a message. */
export function shorten(text: string): string {
  return shortened(text, 40);
}
