import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import { type CheckedFile, NONE, propose, type Range } from '../engine/index.ts';
import type { Workspace } from './workspace.ts';

/** Writes the setpoints that are missing; a choice of values, so it is offered and never done on saving. */
export const PROPOSE = `${CodeActionKind.RefactorRewrite}.setproof`;

/** Offered where the setpoints stand, or should stand, in an installation that lacks some which can be worked out. */
export function proposalAction(workspace: Workspace, file: CheckedFile, range: Range): CodeAction[] {
  const { document } = file;
  if (document.kind !== 'installation' || !standsAtSetpoints(file, range)) return [];
  const { repository } = workspace;
  const { path } = document;
  const { text, entries } = propose(file, repository.options.today, (changed) =>
    repository.update([{ path, text: changed, root: repository.rootOf(path) }]).check(path),
  );
  if (entries.length === 0) return [];
  const count = entries.length === 1 ? 'the missing setpoint' : `the ${entries.length} missing setpoints`;
  return [
    {
      title: `Write ${count} from their windows, each with what it rests on`,
      kind: PROPOSE,
      edit: { changes: { [workspace.open.uriOf(path)]: [changedPart(document, text)] } },
    },
  ];
}

function standsAtSetpoints({ document }: CheckedFile, range: Range): boolean {
  const { tree, source } = document;
  const node = tree.find('setpoints');
  if (node === NONE) return true;
  const start = source.positionAt(tree.keySpan(node).start).line;
  const end = source.positionAt(tree.span(node).end).line;
  return range.end.line >= start && range.start.line <= end;
}

/** One edit over what differs, so that the rest of the text, and the marks that an editor keeps in it, stay. */
function changedPart({ source }: CheckedFile['document'], text: string) {
  const before = source.text;
  let start = 0;
  while (start < before.length && before[start] === text[start]) start++;
  let tail = 0;
  const most = Math.min(before.length, text.length) - start;
  while (tail < most && before[before.length - 1 - tail] === text[text.length - 1 - tail]) tail++;
  const range = source.rangeOf({ start, end: before.length - tail });
  return { range, newText: text.slice(start, text.length - tail) };
}
