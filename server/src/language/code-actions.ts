import {
  type CodeAction,
  CodeActionKind,
  type Diagnostic,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { CheckedFile, Finding, Fix, Range } from '../engine/index.ts';
import { type DiagnosticNames, toDiagnostic } from './diagnostics.ts';
import { PROPOSE, proposalAction } from './proposal-action.ts';
import type { Workspace } from './workspace.ts';

/** Mends at once what can be mended without choosing a value: spelling and units. */
export const FIX_ALL = `${CodeActionKind.SourceFixAll}.setproof`;
export const CODE_ACTION_KINDS: string[] = [CodeActionKind.QuickFix, PROPOSE, FIX_ALL];

export interface ActionRequest {
  readonly range: Range;
  /** Kinds asked for; undefined for all. */
  readonly only: readonly string[] | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** The ways to mend what was found in a range, the setpoints that are missing, and all mechanical fixes together. */
export function codeActions(
  workspace: Workspace,
  file: CheckedFile,
  request: ActionRequest,
  names: DiagnosticNames,
): CodeAction[] {
  const near = file.findings.filter((finding) => touches(finding.range, request.range));
  return [
    ...(wants(request, CodeActionKind.QuickFix) ? near.flatMap((each) => quickFixes(workspace, each, names)) : []),
    ...(wants(request, PROPOSE) ? proposalAction(workspace, file, request.range) : []),
    ...(wants(request, FIX_ALL) ? fixAll(workspace, file, request) : []),
  ];
}

function wants({ only }: ActionRequest, kind: string): boolean {
  return only === undefined || only.some((each) => kind === each || kind.startsWith(`${each}.`));
}

function quickFixes(workspace: Workspace, finding: Finding, names: DiagnosticNames): CodeAction[] {
  return finding.fixes.map((fix, index) => ({
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [toDiagnostic(finding, names)],
    isPreferred: index === 0,
    edit: editOf(workspace, [fix]),
  }));
}

/** Offered on saving and on request only, or where there is something to mend. */
function fixAll(workspace: Workspace, file: CheckedFile, request: ActionRequest): CodeAction[] {
  const fixes = withoutOverlaps(
    file.findings.flatMap((each) => each.fixes.filter(({ kind }) => kind === 'mechanical')),
  );
  if (fixes.length === 0 || (fixes.length === 1 && request.only === undefined)) return [];
  return [{ title: 'Mend all spellings and units', kind: FIX_ALL, edit: editOf(workspace, fixes) }];
}

/** Of fixes that change the same text, the first; one edit would spoil the other's place. */
function withoutOverlaps(fixes: readonly Fix[]): readonly Fix[] {
  const taken: { path: string; start: number; end: number }[] = [];
  return fixes.filter(({ edits }) => {
    const spans = edits.map(({ path, span }) => ({ path, ...span }));
    const isFree = spans.every((a) => taken.every((b) => a.path !== b.path || a.end < b.start || b.end < a.start));
    if (isFree) taken.push(...spans);
    return isFree;
  });
}

function editOf(workspace: Workspace, fixes: readonly Fix[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { path, span, newText } of fixes.flatMap(({ edits }) => edits)) {
    const document = workspace.repository.document(path);
    if (document === undefined) continue;
    const uri = workspace.open.uriOf(path);
    changes[uri] = [...(changes[uri] ?? []), { range: document.source.rangeOf(span), newText }];
  }
  return { changes };
}

function touches(a: Range, b: Range): boolean {
  return !isBefore(a.end, b.start) && !isBefore(b.end, a.start);
}

function isBefore(a: Range['start'], b: Range['start']): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}
