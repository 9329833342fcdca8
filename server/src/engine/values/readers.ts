import type { Located } from '../links/installation.ts';
import { stepsOf } from '../syntax/tree.ts';
import type { Condition, RowsSource, Source } from './declare.ts';
import type { Evaluation } from './evaluation.ts';
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

export function compileInput(name: string, source: Source, byId: ReadonlyMap<string, NetworkNode>): CompiledInput {
  return { name, source, read: readingOf(source, byId), applies: applicabilityOf(source, byId) };
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

function readingOf(source: Source, byId: ReadonlyMap<string, NetworkNode>): Reading {
  switch (source.from) {
    case 'presence':
      return presenceReading(source.path);
    case 'entry':
      return numberReading(
        source.path,
        source.inCase,
        source.optional ? undefined : (source.assumed?.number ?? LACKING),
      );
    case 'case':
      return (evaluation, at) => evaluation.caseNumber(at, source.key) ?? (source.optional ? undefined : LACKING);
    case 'text':
      return textReading(source.path, source.inCase, source.optional ? undefined : (source.assumed ?? LACKING));
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
      return rowsReading(source);
    case 'limit':
      return (evaluation) => evaluation.limit(source.name);
  }
}

function nodeOf(id: string, byId: ReadonlyMap<string, NetworkNode>): NetworkNode {
  const node = byId.get(id);
  if (node === undefined) throw new Error(`no value is declared as '${id}'`);
  return node;
}

function numberReading(path: string, inCase: string | undefined, otherwise: unknown): Reading {
  const steps = stepsOf(path);
  // An entry that is there but cannot be read must not be replaced by a default behind the author's back.
  const general: Reading = (evaluation) =>
    evaluation.entryNumber(path, steps) ?? (evaluation.has(path, steps) ? LACKING : otherwise);
  if (inCase === undefined) return general;
  return (evaluation, at) =>
    evaluation.caseHas(at, inCase) ? (evaluation.caseNumber(at, inCase) ?? LACKING) : general(evaluation, at);
}

function textReading(path: string, inCase: string | undefined, otherwise: unknown): Reading {
  const steps = stepsOf(path);
  return (evaluation, at) => {
    const own = inCase === undefined ? undefined : evaluation.caseText(at, inCase);
    return own ?? (path === '' ? undefined : evaluation.entryText(path, steps)) ?? otherwise;
  };
}

function presenceReading(path: string): Reading {
  const steps = stepsOf(path);
  return (evaluation) => evaluation.has(path, steps);
}

function rowsReading(source: RowsSource): Reading {
  const steps = stepsOf(source.path);
  // A list that is there but cannot be read must not count as absent.
  return (evaluation) =>
    evaluation.rows(source, steps) ?? (source.optional && !evaluation.has(source.path, steps) ? undefined : LACKING);
}

export function compileCondition(condition: Condition): CompiledCondition {
  return { condition, test: testOf(condition) };
}

function testOf(condition: Condition): CompiledCondition['test'] {
  if ('caseKey' in condition) return caseTest(condition);
  const steps = stepsOf(condition.path);
  if ('present' in condition) {
    return (evaluation) => (evaluation.has(condition.path, steps) === condition.present ? 'holds' : 'fails');
  }
  if ('alternate' in condition) {
    return (evaluation) => (isAlternate(evaluation.locate(condition.path, steps)) ? 'holds' : 'fails');
  }
  return (evaluation) => {
    const text = evaluation.entryText(condition.path, steps);
    if ('isNot' in condition) return text !== undefined && condition.isNot.includes(text) ? 'fails' : 'holds';
    if (text === undefined) return 'lacking';
    return condition.is.includes(text) ? 'holds' : 'fails';
  };
}

function isAlternate(located: Located | undefined): boolean {
  return located?.document.quantities[located.node]?.alternate !== undefined;
}

function caseTest(condition: Extract<Condition, { readonly caseKey: string }>): CompiledCondition['test'] {
  return (evaluation, at) => {
    const text = evaluation.caseText(at, condition.caseKey);
    const holds = 'is' in condition ? condition.is.includes(text ?? '') : (text !== undefined) === condition.present;
    return holds ? 'holds' : 'fails';
  };
}
