import type { Located } from '../links/installation.ts';
import type { Condition, EntrySource, RowsSource, Source, TextSource } from './declare.ts';
import type { Evaluation } from './evaluation.ts';
import type { Lookups } from './lookups.ts';
import type { NetworkNode } from './network.ts';

/** Stands for a required input that is not there. */
export const LACKING: unique symbol = Symbol('lacking');

export type Reading = (evaluation: Evaluation, caseIndex: number) => unknown;

/** An input made ready to be read: paths split and ids resolved once. */
export interface CompiledInput {
  readonly name: string;
  readonly source: Source;
  readonly read: Reading;
  /**
   * Whether there can be such a number here at all: a value that does not apply is not merely missing. Undefined where
   * that is no question, as for an entry.
   */
  readonly applies: ((evaluation: Evaluation, caseIndex: number) => boolean) | undefined;
}

export type Verdict = 'holds' | 'fails' | 'lacking';

export interface CompiledCondition {
  readonly condition: Condition;
  readonly test: (evaluation: Evaluation, caseIndex: number) => Verdict;
}

/** What inputs are resolved against when they are compiled. */
export interface Resolving {
  readonly byId: ReadonlyMap<string, NetworkNode>;
  readonly lookups: Lookups;
}

export function compileInput(name: string, source: Source, resolving: Resolving): CompiledInput {
  return { name, source, read: readingOf(source, resolving), applies: applicabilityOf(source, resolving.byId) };
}

function applicabilityOf(source: Source, byId: ReadonlyMap<string, NetworkNode>): CompiledInput['applies'] {
  if (source.from === 'value' && !source.optional) {
    const node = nodeOf(source.id, byId);
    return (evaluation, at) => evaluation.applies(node, at);
  }
  if (source.from === 'each' && source.complete) {
    const node = nodeOf(source.id, byId);
    return (evaluation) => evaluation.appliesSomewhere(node);
  }
  return undefined;
}

function readingOf(source: Source, { byId, lookups }: Resolving): Reading {
  switch (source.from) {
    case 'presence': {
      const at = lookups.entry(source.path);
      return ({ entries }) => entries.file.has(at);
    }
    case 'entry':
      return numberReading(source, source.optional ? undefined : (source.assumed?.number ?? LACKING), lookups);
    case 'case': {
      const key = lookups.caseKey(source.key);
      const otherwise = source.optional ? undefined : LACKING;
      return ({ entries }, at) => numberOr(entries.inCase(at).number(key), otherwise);
    }
    case 'text':
      return textReading(source, source.optional ? undefined : (source.assumed ?? LACKING), lookups);
    case 'value': {
      const node = nodeOf(source.id, byId);
      const otherwise = source.optional ? undefined : LACKING;
      return (evaluation, at) => evaluation.numberOf(node, at) ?? otherwise;
    }
    case 'each': {
      const node = nodeOf(source.id, byId);
      return (evaluation) => evaluation.eachNumber(node, source.complete) ?? LACKING;
    }
    case 'each-text':
      return (evaluation) => evaluation.eachCaseText(source.key);
    case 'rows':
      return rowsReading(source, lookups);
    case 'limit':
      return (evaluation) => evaluation.limit(source.name);
  }
}

export function nodeOf(id: string, byId: ReadonlyMap<string, NetworkNode>): NetworkNode {
  const node = byId.get(id);
  if (node === undefined) throw new Error(`no value is declared as '${id}'`);
  return node;
}

function numberOr(number: number, otherwise: unknown): unknown {
  return Number.isNaN(number) ? otherwise : number;
}

function numberReading({ path, inCase }: EntrySource, otherwise: unknown, lookups: Lookups): Reading {
  const entry = lookups.entry(path);
  // An entry that is there but cannot be read must not be replaced by a default behind the author's back.
  const general: Reading = ({ entries }) => {
    const number = entries.file.number(entry);
    if (!Number.isNaN(number)) return number;
    return entries.file.has(entry) ? LACKING : otherwise;
  };
  if (inCase === undefined) return general;
  const key = lookups.caseKey(inCase);
  return (evaluation, at) => {
    const own = evaluation.entries.inCase(at);
    return own.has(key) ? numberOr(own.number(key), LACKING) : general(evaluation, at);
  };
}

function textReading({ path, inCase }: TextSource, otherwise: unknown, lookups: Lookups): Reading {
  const entry = path === '' ? undefined : lookups.entry(path);
  const general: Reading = ({ entries }) => (entry === undefined ? undefined : entries.file.text(entry)) ?? otherwise;
  if (inCase === undefined) return general;
  const key = lookups.caseKey(inCase);
  return (evaluation, at) => evaluation.entries.inCase(at).text(key) ?? general(evaluation, at);
}

function rowsReading(source: RowsSource, lookups: Lookups): Reading {
  const list = lookups.list(source);
  const entry = lookups.entry(source.path);
  // A list that is there but cannot be read must not count as absent.
  return ({ entries }) => entries.rows(list) ?? (source.optional && !entries.file.has(entry) ? undefined : LACKING);
}

export function compileCondition(condition: Condition, lookups: Lookups): CompiledCondition {
  return { condition, test: testOf(condition, lookups) };
}

function testOf(condition: Condition, lookups: Lookups): CompiledCondition['test'] {
  if ('caseKey' in condition) return caseTest(condition, lookups.caseKey(condition.caseKey));
  const entry = lookups.entry(condition.path);
  if ('present' in condition) {
    return ({ entries }) => (entries.file.has(entry) === condition.present ? 'holds' : 'fails');
  }
  if ('alternate' in condition) {
    return ({ entries }) => (isAlternate(entries.file.located(entry)) ? 'holds' : 'fails');
  }
  return ({ entries }) => {
    const text = entries.file.text(entry);
    if ('isNot' in condition) return text !== undefined && condition.isNot.includes(text) ? 'fails' : 'holds';
    if (text === undefined) return 'lacking';
    return condition.is.includes(text) ? 'holds' : 'fails';
  };
}

function isAlternate(located: Located | undefined): boolean {
  return located?.document.quantities[located.node]?.alternate !== undefined;
}

function caseTest(condition: Extract<Condition, { readonly caseKey: string }>, key: number): CompiledCondition['test'] {
  return ({ entries }, at) => {
    const text = entries.inCase(at).text(key);
    const holds = 'is' in condition ? condition.is.includes(text ?? '') : (text !== undefined) === condition.present;
    return holds ? 'holds' : 'fails';
  };
}
