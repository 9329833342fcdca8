import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  InsertTextMode,
  MarkupKind,
} from 'vscode-languageserver';
import { CATALOGUE, type CheckedFile, LIMITS, type Range, SHAPES, type Shape, VERSIONS } from '../engine/index.ts';
import { visible } from '../render/escape.ts';
import { type KeyPlace, placeAt, type ValuePlace } from './completion-place.ts';
import { type Proposal, valueProposals } from './completion-values.ts';
import { describe } from './hover.ts';
import { suitsLift } from './lift.ts';
import { snippetBehind, verbatim } from './snippets.ts';
import type { Workspace } from './workspace.ts';

/** What can be written at an offset. Incomplete by design: what fits depends on what is written, and case counts. */
export async function completionAt(
  workspace: Workspace,
  file: CheckedFile,
  offset: number,
  takesSnippets: boolean,
): Promise<CompletionList> {
  const place = placeAt(file.document, offset);
  if (place?.at === 'value' && place.shape.reference !== undefined) await workspace.closed.hurry(Date.now);
  const items =
    place === undefined
      ? labelsAt(file, offset)
      : place.at === 'key'
        ? keys(file, place, takesSnippets)
        : values(workspace, file, place);
  return { isIncomplete: true, items };
}

function keys(file: CheckedFile, place: KeyPlace, takesSnippets: boolean): CompletionItem[] {
  const named = Object.entries(place.parent.keys ?? {});
  const required = new Set(place.parent.required);
  const listed = named.map(([key, shape]) => ({ key, shape, isRequired: required.has(key) }));
  const opened = place.parent.open === undefined ? [] : openKeys(place.path, place.parent.open);
  return [...listed, ...opened]
    .filter(({ key }) => !place.present.includes(key) && key.includes(place.written))
    .filter(({ key }) => suitsLift(file.document, place.path === '' ? key : `${place.path}.${key}`))
    .map((each, order) => keyItem(file, place, each, { order, takesSnippets }));
}

/** Keys that are no keys of the format: checks and limits by their names in a policy. */
function openKeys(path: string, shape: Shape) {
  const names =
    path === 'checks' ? CATALOGUE.map(({ id }) => id) : path === 'limits' ? LIMITS.map(({ name }) => name) : [];
  return names.map((key) => ({ key, shape, isRequired: false }));
}

function keyItem(
  { document }: CheckedFile,
  place: KeyPlace,
  { key, shape, isRequired }: { key: string; shape: Shape; isRequired: boolean },
  { order, takesSnippets }: { order: number; takesSnippets: boolean },
): CompletionItem {
  const isNested = shape.type === 'map' || shape.type === 'list';
  return {
    label: key,
    kind: isNested ? CompletionItemKind.Module : CompletionItemKind.Property,
    detail: isRequired ? `${shape.title}, must be there` : shape.title,
    documentation: { kind: MarkupKind.Markdown, value: describe(shape) },
    // What must be there first, then the order of the format.
    sortText: `${isRequired ? 0 : 1}${String(order).padStart(3, '0')}`,
    filterText: key,
    insertTextMode: InsertTextMode.asIs,
    ...(takesSnippets && { insertTextFormat: InsertTextFormat.Snippet }),
    textEdit: {
      range: document.source.rangeOf(place.token),
      newText: takesSnippets ? verbatim(key) + snippetOf(place, shape) : key + behindKey(place, shape),
    },
  };
}

function snippetOf({ hasColon, inFlow, column }: KeyPlace, shape: Shape): string {
  return hasColon ? '' : snippetBehind(shape, inFlow, ' '.repeat(column + 2));
}

/** What goes behind a key so that its value can be written at once. */
function behindKey({ hasColon, inFlow, column }: KeyPlace, { type }: Shape): string {
  if (hasColon) return '';
  const indent = ' '.repeat(column + 2);
  if (type === 'map') return inFlow ? ': { }' : `:\n${indent}`;
  if (type === 'list') return inFlow ? ': [ ]' : `:\n${indent}- `;
  return ': ';
}

function values(workspace: Workspace, file: CheckedFile, place: ValuePlace): CompletionItem[] {
  const { proposals, replaces } = valueProposals(workspace, file, place);
  const range = file.document.source.rangeOf(place.token);
  // An editor filters by what stands there; what is to replace it must pass all the same.
  return proposals.map((each, order) =>
    valueItem(each, { range, order, filterText: replaces ? place.written : each.text }),
  );
}

interface ItemPlace {
  readonly range: Range;
  readonly order: number;
  readonly filterText: string;
}

function valueItem({ text, ...proposal }: Proposal, { range, order, filterText }: ItemPlace): CompletionItem {
  return {
    label: text,
    kind: proposal.kind,
    detail: visible(proposal.detail),
    ...(proposal.documentation !== undefined && {
      documentation: { kind: MarkupKind.Markdown, value: proposal.documentation },
    }),
    ...(proposal.isPreferred && { preselect: true }),
    sortText: `${proposal.isPreferred ? 0 : 1}${String(order).padStart(3, '0')}`,
    filterText,
    textEdit: { range, newText: text },
  };
}

/** In a file that does not say yet what it is, the first line is all that can be offered. */
function labelsAt({ document }: CheckedFile, offset: number): CompletionItem[] {
  const { line } = document.source.positionAt(offset);
  if (document.kind !== undefined || line > 0) return [];
  const lineEnd = document.source.text.search(/[\r\n]|$/);
  const range = document.source.rangeOf({ start: 0, end: lineEnd });
  return Object.entries(VERSIONS).map(([kind, version]) => {
    const label = `document: ${kind}/${version}`;
    const detail = SHAPES[kind as keyof typeof SHAPES].title;
    return { label, kind: CompletionItemKind.Class, detail, filterText: label, textEdit: { range, newText: label } };
  });
}
