import { type CodeAction, CodeActionKind, type Diagnostic } from 'vscode-languageserver';
import type { CheckedFile, Finding, Fix, Range } from '../engine/index.ts';
import { visible } from '../render/escape.ts';
import { deviationAction, withoutDeviation } from './deviation-action.ts';
import { type DiagnosticNames, toDiagnostic } from './diagnostics.ts';
import { editOfFixes } from './edits.ts';
import { keyActions } from './key-actions.ts';
import { PROPOSE, proposalAction } from './proposal-action.ts';
import { referenceActions } from './reference-actions.ts';
import { setpointActions } from './setpoint-actions.ts';
import { CONVERT, unitActions } from './unit-actions.ts';
import type { Workspace } from './workspace.ts';

/** Mends at once what can be mended without choosing a value: spelling and units. */
export const FIX_ALL = `${CodeActionKind.SourceFixAll}.setproof`;
export const CODE_ACTION_KINDS: string[] = [CodeActionKind.QuickFix, PROPOSE, CONVERT, FIX_ALL];

export interface ActionRequest {
  readonly range: Range;
  /** Kinds asked for; undefined for all. */
  readonly only: readonly string[] | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** The ways to mend what was found in a range, to fill in and convert values there, and all mechanical fixes together. */
export async function codeActions(
  workspace: Workspace,
  file: CheckedFile,
  request: ActionRequest,
  names: DiagnosticNames,
): Promise<CodeAction[]> {
  const { range } = request;
  const near = file.findings.filter((finding) => touches(finding.range, range));
  // What a path could have meant is among the documents that no editor holds.
  if (near.some(({ check }) => check === 'reference.not-found')) await workspace.closed.hurry(Date.now);
  return withoutRepeats([
    ...(wants(request, CodeActionKind.QuickFix) ? quickActions(workspace, file, near, names) : []),
    ...(wants(request, PROPOSE) ? proposalAction(workspace, file, range) : []),
    ...(wants(request, PROPOSE) ? setpointActions(workspace, file, range) : []),
    ...(wants(request, CONVERT) ? unitActions(workspace, file, range) : []),
    ...(wants(request, FIX_ALL) ? fixAll(workspace, file, request) : []),
  ]);
}

function wants({ only }: ActionRequest, kind: string): boolean {
  return only === undefined || only.some((each) => kind === each || kind.startsWith(`${each}.`));
}

/** What mends comes first, then what adds; accepting it comes last. */
function quickActions(
  workspace: Workspace,
  file: CheckedFile,
  near: readonly Finding[],
  names: DiagnosticNames,
): CodeAction[] {
  const forEach = (actions: (finding: Finding) => CodeAction[]) =>
    near.flatMap((finding) =>
      actions(finding).map((each) => ({ ...each, diagnostics: [toDiagnostic(finding, names)] })),
    );
  return [
    ...forEach((finding) => fixActions(workspace, finding)),
    ...forEach((finding) => referenceActions(workspace, file, finding)),
    ...forEach((finding) => fixKind(workspace, file, finding)),
    ...forEach((finding) => withoutDeviation(workspace, file, finding)),
    ...forEach((finding) => keyActions(workspace, file, finding)),
    ...forEach((finding) => deviationAction(workspace, file, finding)),
  ];
}

/** Where there is a choice none is preferred: an editor may take the preferred one unasked. */
function fixActions(workspace: Workspace, { check, fixes }: Finding): CodeAction[] {
  return fixes.map((fix) => ({
    title: check === 'units.thousands-separator' ? titleOfReading(fix) : fix.title,
    kind: CodeActionKind.QuickFix,
    isPreferred: fixes.length === 1,
    edit: editOfFixes(workspace, [fix]),
  }));
}

/** Half the world reads the comma the other way, so each reading says which it is. */
function titleOfReading({ title }: Fix): string {
  return `${title}, ${/\d\.\d/.test(title) ? 'the mark as a decimal point' : 'the mark between thousands'}`;
}

/** The same slip is seldom made once. */
function fixKind(workspace: Workspace, file: CheckedFile, { check }: Finding): CodeAction[] {
  const own = file.findings.filter((each) => each.check === check);
  const fixes = mechanicalFixes(own);
  if (fixes.length < 2) return [];
  const title = `Mend all ${fixes.length} findings of '${check}' in this file`;
  return [{ title, kind: CodeActionKind.QuickFix, edit: editOfFixes(workspace, fixes) }];
}

/** Offered on saving and on request only, or where there is something to mend. */
function fixAll(workspace: Workspace, file: CheckedFile, request: ActionRequest): CodeAction[] {
  const fixes = mechanicalFixes(file.findings);
  if (fixes.length === 0 || (fixes.length === 1 && request.only === undefined)) return [];
  return [{ title: 'Mend all spellings and units', kind: FIX_ALL, edit: editOfFixes(workspace, fixes) }];
}

function mechanicalFixes(findings: readonly Finding[]): readonly Fix[] {
  return withoutOverlaps(findings.flatMap((each) => each.fixes.filter(({ kind }) => kind === 'mechanical')));
}

/** Several findings may lead to one way out; it is offered once, for all of them. */
function withoutRepeats(actions: readonly CodeAction[]): CodeAction[] {
  const byEdit = new Map<string, CodeAction>();
  for (const action of actions) {
    const edit = JSON.stringify(action.edit);
    const title = visible(action.title);
    const first = byEdit.get(edit);
    const diagnostics = [...(first?.diagnostics ?? []), ...(action.diagnostics ?? [])];
    byEdit.set(edit, {
      ...(first ?? action),
      title: first?.title ?? title,
      ...(diagnostics.length > 0 && { diagnostics }),
    });
  }
  return [...byEdit.values()];
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

function touches(a: Range, b: Range): boolean {
  return !isBefore(a.end, b.start) && !isBefore(b.end, a.start);
}

function isBefore(a: Range['start'], b: Range['start']): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}
