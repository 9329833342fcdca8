import { CompletionItemKind } from 'vscode-languageserver';
import {
  CATALOGUE,
  CheckContext,
  type CheckedFile,
  type Document,
  type DocumentKind,
  fittingUnits,
  KINDS,
  kindNamed,
  platedTaps,
  type Shape,
  type WindowReading,
} from '../engine/index.ts';
import { escapeMarkdown } from '../render/markdown/escape.ts';
import type { ValuePlace } from './completion-place.ts';
import { readingProposals } from './completion-readings.ts';
import { windowText } from './hint-values.ts';
import { liftOf, unitSuitsLift } from './lift.ts';
import { relativePath } from './reference-paths.ts';
import { isOfLift, nameOf, pathsOfKind } from './sheets.ts';
import type { Workspace } from './workspace.ts';

/** A value that fits at a place, and why. */
export interface Proposal {
  readonly text: string;
  readonly detail: string;
  readonly kind: CompletionItemKind;
  readonly documentation?: string;
  readonly isPreferred?: boolean;
}

/** What fits at a place; `replaces` where a value stands there already, and others are offered in its stead. */
export interface Proposals {
  readonly proposals: readonly Proposal[];
  readonly replaces: boolean;
}

const TAP = 'setpoints.transformer.tap';

export function valueProposals(workspace: Workspace, file: CheckedFile, place: ValuePlace): Proposals {
  const told = readingProposals(workspace, file, place);
  // Where the checklist says what is due, the examples of the format would be in its way.
  const fitting = told.length > 0 ? told : [...recommended(file, place), ...ofShape(workspace, file, place)];
  const first = new Map<string, Proposal>();
  for (const each of fitting) if (!first.has(each.text)) first.set(each.text, withBoth(each, fitting));
  const all = [...first.values()];
  const replaces = all.some(({ text }) => text === place.written);
  return { proposals: replaces ? all : all.filter(({ text }) => text.includes(place.written)), replaces };
}

/** One value may be proposed for two reasons: a recommended tap also has its verdict. */
function withBoth(proposal: Proposal, all: readonly Proposal[]): Proposal {
  const details = all.filter(({ text }) => text === proposal.text).map(({ detail }) => detail);
  // The verdict is the shorter, and comes first.
  return { ...proposal, detail: [...new Set(details)].reverse().join('; ') };
}

function ofShape(workspace: Workspace, file: CheckedFile, place: ValuePlace): readonly Proposal[] {
  const { shape, path, inFlow } = place;
  if (path === TAP) return taps(file);
  if (/^deviations\[\d+\]\.check$|^require\[\d+\]$/.test(path)) return CATALOGUE.map(checkProposal);
  if (/^deviations\[\d+\]\.case$/.test(path)) return caseNames(file);
  if (/^deviations\[\d+\]\.(?:key|up_to)$/.test(path)) return deviable(file, path);
  if (shape.reference !== undefined) return dataSheets(workspace, file, shape.reference);
  switch (shape.type) {
    case 'choice':
      return Object.entries(shape.choices ?? {}).map(([text, meaning]) => choice(text, meaning, shape));
    case 'boolean':
      return ['yes', 'no'].map((text) => choice(text, '', shape));
    case 'quantity':
      return quantities(place, file.document);
    default:
      return (shape.examples ?? []).filter((each) => !inFlow || !/[,{}[\]]/.test(each)).map(example);
  }
}

function choice(text: string, meaning: string, { assumed, title }: Shape): Proposal {
  const detail = assumed?.value === text ? `${title}; taken if absent` : title;
  return {
    text,
    detail,
    kind: CompletionItemKind.EnumMember,
    ...(meaning && { documentation: escapeMarkdown(meaning) }),
  };
}

function example(text: string): Proposal {
  return { text, detail: 'an example', kind: CompletionItemKind.Text };
}

function checkProposal({ id, title }: (typeof CATALOGUE)[number]): Proposal {
  return { text: id, detail: title, kind: CompletionItemKind.Constant };
}

function caseNames({ worked }: CheckedFile): readonly Proposal[] {
  const evaluation = worked?.evaluation;
  const nodes = evaluation?.installation.caseNodes ?? [];
  return nodes.map((_, at) => ({
    text: evaluation?.caseName(at) ?? '',
    detail: 'a case',
    kind: CompletionItemKind.Value,
  }));
}

/** In a deviation: the keys of the findings of its check, and the values found there. */
function deviable({ document, findings }: CheckedFile, path: string): readonly Proposal[] {
  const [, deviation = '', wanted = ''] = /^(.*)\.(\w+)$/.exec(path) ?? [];
  const check = document.tree.scalar(document.tree.find(`${deviation}.check`));
  const own = findings.filter((each) => each.check === check || (check === '' && wanted === 'key'));
  return own.flatMap(({ key, value, message }) => {
    const text = wanted === 'key' ? key : value === undefined ? '' : `${value.number} ${value.unit}`.trim();
    return text === '' ? [] : [{ text, detail: message, kind: CompletionItemKind.Value }];
  });
}

/** Behind a number the units that fit; before one, what is assumed otherwise. */
function quantities({ shape, written }: ValuePlace, document: Document): readonly Proposal[] {
  const kind = kindNamed(shape.quantity?.kind ?? '');
  const number = /^[-+]?\d[\d./]*/.exec(written)?.[0];
  if (kind === undefined || number === undefined) return assumed(shape);
  const usual = shape.quantity?.usual ?? [];
  // What takes every unit is helped by the usual ones only.
  const fitting = kind === KINDS.any ? usual : [...new Set([...usual, ...fittingUnits(kind)])];
  const units = fitting.filter((unit) => unit !== '' && unitSuitsLift(document, unit));
  const glued = written.length > number.length && !/\s/.test(written.charAt(number.length));
  return units.flatMap((unit) => {
    const texts = kind.point === 'pressure' ? [unit, `${unit}(g)`, `${unit}(a)`] : [unit];
    return texts.map((each) => unitProposal(`${number}${glued ? '' : ' '}${each}`, kind.phrase, usual.includes(unit)));
  });
}

function unitProposal(text: string, phrase: string, isUsual: boolean): Proposal {
  return { text, detail: isUsual ? `${phrase}, usual here` : phrase, kind: CompletionItemKind.Unit };
}

function assumed({ assumed: otherwise }: Shape): readonly Proposal[] {
  if (otherwise === undefined) return [];
  return [{ text: otherwise.value, detail: `taken if absent: ${otherwise.source}`, kind: CompletionItemKind.Value }];
}

/** What the window of a setpoint recommends, and on what that rests. */
function recommended({ worked }: CheckedFile, { path }: ValuePlace): readonly Proposal[] {
  if (worked === undefined) return [];
  return worked.windows.flatMap((reading) => {
    const { window, applies, recommended: number } = reading;
    if (!applies || number === undefined) return [];
    const show = new CheckContext(worked.evaluation, 0, '').show(number, window.kind, window.setpoint);
    const entries = window.choice?.(worked.evaluation, number)?.entries ?? [{ key: window.setpoint, newText: show }];
    const own = entries.find(({ key }) => key === path);
    if (own === undefined) return [];
    const detail = `recommended; ${windowText(worked, reading)}`;
    const rule = window.recommendation?.rule;
    const documentation = rule && `Recommended: ${escapeMarkdown(rule)}.`;
    const kind = CompletionItemKind.Value;
    return [{ text: own.newText, detail, kind, isPreferred: true, ...(documentation && { documentation }) }];
  });
}

/** The taps on the plate, each with its verdict. */
function taps({ worked }: CheckedFile): readonly Proposal[] {
  if (worked === undefined) return [];
  const reading = worked.windows.find(({ window }) => window.setpoint === TAP);
  return platedTaps(worked.evaluation).map(({ tap, voltage }) => ({
    text: tap,
    detail: `${Math.round(voltage)} V: ${verdictOn(voltage, reading)}`,
    kind: CompletionItemKind.Value,
  }));
}

function verdictOn(voltage: number, reading: WindowReading | undefined): string {
  if (reading === undefined || !reading.applies) return 'not judged';
  const { hardLower, hardUpper, lower, upper } = reading.ends;
  if (voltage < hardLower) return `too low by ${Math.ceil(hardLower - voltage)} V`;
  if (voltage > hardUpper) return `too high by ${Math.ceil(voltage - hardUpper)} V`;
  if (voltage < lower || voltage > upper) return 'fits, close to an end of its window';
  return Number.isFinite(hardLower) || Number.isFinite(hardUpper) ? 'fits' : 'not judged';
}

/** Documents of the kind and of the lift due, by their paths from this file. */
function dataSheets(workspace: Workspace, { document }: CheckedFile, due: string): readonly Proposal[] {
  const kind = due.split('/')[0] as DocumentKind;
  const what = kind === 'installation' ? 'an installation' : `a ${kind}’s data sheet`;
  const lift = document.kind === 'installation' ? liftOf(document) : undefined;
  const paths = pathsOfKind(workspace, document, kind).filter((path) => isOfLift(workspace, path, lift));
  return paths.map((path) => ({
    text: relativePath(document.path, path),
    detail: nameOf(workspace, path) ?? what,
    kind: CompletionItemKind.File,
  }));
}
