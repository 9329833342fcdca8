import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import {
  type CheckedFile,
  type Document,
  type Finding,
  NONE,
  proposalEdits,
  SHAPES,
  type Shape,
  stepsOf,
} from '../engine/index.ts';
import { editOf, entryBehind, type SpanEdit } from './edits.ts';
import type { Workspace } from './workspace.ts';

/** Where a finding is that something is missing: its key, with the value left to its author. */
export function keyActions(workspace: Workspace, file: CheckedFile, finding: Finding): CodeAction[] {
  const edits = finding.check === 'document.missing-key' ? requiredKey(file, finding) : absentEntry(file, finding);
  return edits.map(({ title, edit }) => ({
    title,
    kind: CodeActionKind.QuickFix,
    edit: editOf(workspace, file.document, edit),
  }));
}

interface Titled {
  readonly title: string;
  readonly edit: readonly SpanEdit[];
}

function requiredKey({ document }: CheckedFile, { key, message }: Finding): readonly Titled[] {
  const { tree, shapes } = document;
  const at = tree.find(key);
  const owner = tree.isMapping(at) ? at : tree.parent(at);
  const required = (shapes[owner]?.required ?? []).filter((each) => tree.child(owner, each) === NONE);
  // One finding for each missing key stands at one place.
  const missing = required.find((each) => message.includes(`'${each}'`));
  if (missing === undefined) return [];
  return [
    {
      title: `Add the key '${missing}'; its value is for you to enter`,
      edit: [entryBehind(document, owner, `${missing}: `)],
    },
  ];
}

/** Keys of a protection that do nothing without each other. */
const TOGETHER = ['trip', 'delay'];

function absentEntry(file: CheckedFile, { key }: Finding): readonly Titled[] {
  const shape = key === '' || file.document.tree.find(key) !== NONE ? undefined : shapeAt(file.document, key);
  if (shape === undefined) return [];
  const keys = keysToEnter(key, shape);
  const entries = keys.map((each) => ({
    key: each,
    text: '',
    basis: `enter: ${shapeAt(file.document, each)?.title ?? each}`,
  }));
  const edit = proposalEdits(file, entries);
  return edit.length === 0 ? [] : [{ title: `Add '${key}'; its value is for you to enter`, edit }];
}

function keysToEnter(key: string, { keys }: Shape): readonly string[] {
  const together = TOGETHER.filter((each) => keys !== undefined && Object.hasOwn(keys, each));
  return together.length > 0 ? together.map((each) => `${key}.${each}`) : [key];
}

function shapeAt({ kind }: Document, key: string): Shape | undefined {
  if (kind === undefined || key.includes('[')) return undefined;
  return stepsOf(key).reduce<Shape | undefined>((shape, step) => shape?.keys?.[step], SHAPES[kind]);
}
