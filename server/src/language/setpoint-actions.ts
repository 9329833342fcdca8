import type { CodeAction } from 'vscode-languageserver';
import {
  CheckContext,
  type CheckedFile,
  NONE,
  proposalEdits,
  type Range,
  type WindowReading,
  type Worked,
} from '../engine/index.ts';
import { editOf, type SpanEdit } from './edits.ts';
import { windowText } from './hint-values.ts';
import { PROPOSE } from './proposal-action.ts';
import type { Workspace } from './workspace.ts';

/** At a setpoint, or in the group where it should stand: its recommended value. A choice of value, so only offered. */
export function setpointActions(workspace: Workspace, file: CheckedFile, range: Range): CodeAction[] {
  const { worked } = file;
  if (worked === undefined) return [];
  return worked.windows.flatMap((reading) => {
    const isNews = reading.applies && reading.recommended !== undefined && reading.recommended !== reading.setpoint;
    return isNews && standsIn(file, reading.window.setpoint, range) ? actionOf(workspace, file, worked, reading) : [];
  });
}

function actionOf(workspace: Workspace, file: CheckedFile, worked: Worked, reading: WindowReading): CodeAction[] {
  const { window, recommended = Number.NaN } = reading;
  const shown = new CheckContext(worked.evaluation, 0, '').show(recommended, window.kind, window.setpoint);
  const choice = window.choice?.(worked.evaluation, recommended);
  const entries = choice?.entries ?? [{ key: window.setpoint, newText: shown }];
  const rule = window.recommendation?.rule ?? '';
  const edits = entries.flatMap(({ key, newText }) => entryEdits(file, key, newText, rule));
  if (edits.length === 0) return [];
  const what = choice === undefined ? `Set ${window.title} to ${shown}` : `Use ${choice.words}`;
  // The window stands in brackets, and some rules are just the number.
  const basis = rule.replace(/, within the window$/, '');
  const title = `${what}${basis === shown ? '' : `, ${basis}`} (${windowText(worked, reading)})`;
  return [{ title, kind: PROPOSE, edit: editOf(workspace, file.document, edits) }];
}

/** A value in place of the one that is there, behind a key that has none, or with its key. */
function entryEdits(file: CheckedFile, key: string, newText: string, basis: string): readonly SpanEdit[] {
  const { tree } = file.document;
  const node = tree.find(key);
  if (node === NONE) return proposalEdits(file, [{ key, text: newText, basis }]);
  const span = tree.span(node);
  return [{ span, newText: span.start === span.end ? ` ${newText}` : newText }];
}

function standsIn({ document }: CheckedFile, setpoint: string, { start, end }: Range): boolean {
  const { tree, source } = document;
  const own = tree.find(setpoint);
  const node = own === NONE ? tree.find(setpoint.split('.').slice(0, -1).join('.')) : own;
  if (node === NONE) return false;
  const from = source.positionAt(tree.keySpan(node).start);
  const to = source.positionAt(tree.span(node).end);
  const isBefore = (a: typeof from, b: typeof from) =>
    a.line < b.line || (a.line === b.line && a.character < b.character);
  return !isBefore(end, from) && !isBefore(to, start);
}
