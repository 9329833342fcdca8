import { CompletionItemKind } from 'vscode-languageserver';
import {
  buildChecklist,
  type CheckedFile,
  type Checklist,
  type Document,
  fittingUnits,
  kindOfUnit,
  readNumber,
  type Stage,
  type Step,
} from '../engine/index.ts';
import { escapeMarkdown } from '../render/markdown/escape.ts';
import type { ValuePlace } from './completion-place.ts';
import type { Proposal } from './completion-values.ts';
import type { Workspace } from './workspace.ts';

/**
 * What a readings document can say at a place, by the checklist of the installation that it names; nothing where that is
 * not known. A number that is to be read is never offered: only its unit is.
 */
export function readingProposals(
  workspace: Workspace,
  { document }: CheckedFile,
  place: ValuePlace,
): readonly Proposal[] {
  if (document.kind !== 'readings') return [];
  const visited = visitedBy(workspace, document);
  if (visited === undefined) return [];
  if (place.path.startsWith('as_left.')) return planned(visited.document, place.path);
  const [, row, part, field] = /^(readings\[\d+\])\.(\w+)(?:\[(\d+)\])?$/.exec(place.path) ?? [];
  if (part === 'by') return crew(document);
  const { stages } = buildChecklist(visited, { units: 'as-written' });
  if (part === 'item') return stages.flatMap((stage) => itemsOf(stage, answered(document, row ?? '')));
  const step = stepAt({ stages }, document, row ?? '');
  if (step === undefined || (part !== 'value' && part !== 'values')) return [];
  return answers(step, place, step.fields?.[Number(field ?? 0)]);
}

function visitedBy({ repository }: Workspace, { path }: Document): CheckedFile | undefined {
  const known = repository.known(path);
  const references = known?.state === 'read' ? known.references : [];
  const named = references.find((each) => repository.document(each.path)?.kind === 'installation');
  return named === undefined ? undefined : repository.check(named.path);
}

/** A setting as it is planned, since most are left so. */
function planned({ tree, source }: Document, path: string): readonly Proposal[] {
  const node = tree.find(path.replace(/^as_left/, 'setpoints'));
  const text = tree.isScalar(node) && !tree.isAbsent(node) ? source.slice(tree.span(node)) : '';
  return text === '' ? [] : [{ text, detail: 'as planned', kind: CompletionItemKind.Value, isPreferred: true }];
}

function crew({ tree }: Document): readonly Proposal[] {
  const names = [...tree.children(tree.find('visit.crew'))].map((node) => tree.scalar(node));
  return names
    .filter((name) => name !== '')
    .map((text) => ({ text, detail: 'of the crew', kind: CompletionItemKind.Value }));
}

/** Items that another row answers already. */
function answered({ tree }: Document, own: string): ReadonlySet<string> {
  const rows = [...tree.children(tree.find('readings'))].filter((row) => tree.path(row) !== own);
  return new Set(rows.map((row) => tree.scalar(tree.child(row, 'item'))));
}

function itemsOf({ title, steps }: Stage, taken: ReadonlySet<string>): readonly Proposal[] {
  return steps
    .filter(({ id, kind }) => kind !== 'caution' && !taken.has(id))
    .map((step) => ({
      text: step.id,
      detail: `${title}: ${WHAT[step.kind]}${step.unit === undefined ? '' : ` in ${step.unit}`}`,
      documentation: escapeMarkdown(step.text),
      kind: CompletionItemKind.Reference,
    }));
}

const WHAT: Readonly<Record<Step['kind'], string>> = {
  do: 'to do',
  read: 'to read',
  set: 'to set',
  hold: 'to sign',
  caution: 'caution',
};

function stepAt({ stages }: Pick<Checklist, 'stages'>, { tree }: Document, row: string): Step | undefined {
  const item = tree.scalar(tree.find(`${row}.item`));
  return stages.flatMap(({ steps }) => steps).find(({ id }) => id === item);
}

function answers(step: Step, { written }: ValuePlace, field: string | undefined): readonly Proposal[] {
  const { kind, choices, unit } = step;
  const words = kind === 'do' ? ['yes', 'no'] : choices;
  if (words !== undefined)
    return words.map((text) => ({ text, detail: step.text, kind: CompletionItemKind.EnumMember }));
  const number = /^(?:[<>]=?\s*)?[-+]?\d[\d.]*/.exec(written)?.[0];
  return unit === undefined || number === undefined ? [] : unitsBehind(number, unit, field);
}

function unitsBehind(number: string, unit: string, field = ''): readonly Proposal[] {
  const kind = kindOfUnit(unit);
  const mark = /\([ga]\)$/.exec(unit)?.[0] ?? '';
  const others = kind === undefined ? [] : fittingUnits(kind).map((each) => `${each}${mark}`);
  const fitting = others.filter((each) => each !== unit && readNumber(`1 ${each}`, unit).fault === undefined);
  return [unit, ...fitting].map((each, order) => ({
    text: `${number} ${each}`,
    detail: `${field === '' ? '' : `${field}, `}${order === 0 ? 'the unit of the sheet' : 'a unit that fits'}`,
    kind: CompletionItemKind.Unit,
    isPreferred: order === 0,
  }));
}
