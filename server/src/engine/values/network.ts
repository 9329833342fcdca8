import { type Reads, readsOf } from './changes.ts';
import type { Condition, Inputs, Method, Source, ValueDeclaration } from './declare.ts';
import { Lookups } from './lookups.ts';
import {
  type CompiledCondition,
  type CompiledInput,
  compileCondition,
  compileInput,
  type Resolving,
} from './readers.ts';

/**
 * Inputs and the conditions under which they matter, made ready to be read. That is done when they are first looked
 * at: of the thousands that are declared, one installation meets half.
 */
export class CompiledReading {
  readonly #when: readonly Condition[];
  readonly #declared: Inputs;
  readonly #resolving: Resolving;
  #conditions: readonly CompiledCondition[] | undefined;
  #inputs: readonly CompiledInput[] | undefined;
  #reads: Reads | undefined;

  constructor(when: readonly Condition[], inputs: Inputs, resolving: Resolving) {
    this.#when = when;
    this.#declared = inputs;
    this.#resolving = resolving;
  }

  get conditions(): readonly CompiledCondition[] {
    this.#conditions ??= compileConditions(this.#when, this.#resolving);
    return this.#conditions;
  }

  get inputs(): readonly CompiledInput[] {
    this.#inputs ??= compileInputs(this.#declared, this.#resolving);
    return this.#inputs;
  }

  get reads(): Reads {
    this.#reads ??= readsOf(this.#when, this.#declared, this.#resolving);
    return this.#reads;
  }
}

export class CompiledMethod extends CompiledReading {
  readonly method: Method;

  constructor(method: Method, resolving: Resolving) {
    super(method.when, method.inputs, resolving);
    this.method = method;
  }
}

/** A declaration in its place in the order of computation. */
export interface NetworkNode {
  readonly declaration: ValueDeclaration;
  readonly index: number;
  /** Whether any of its inputs, however far up, depends on an entry of a case. */
  readonly perCase: boolean;
  readonly methods: readonly CompiledMethod[];
}

/** All declarations, sorted so that each comes after what it rests on. */
export interface Network extends Resolving {
  readonly nodes: readonly NetworkNode[];
}

/**
 * Sorts declarations into an order of computation.
 * @throws Error when an id stands twice, an input names no declaration, or declarations rest on each other in a circle:
 * mistakes of the programmer, met at the first start.
 */
export function buildNetwork(declarations: readonly ValueDeclaration[]): Network {
  const known = new Map(declarations.map((each) => [each.id, each]));
  if (known.size !== declarations.length) throw new Error(`values declared twice: ${repeated(declarations)}`);
  const byId = new Map<string, NetworkNode>();
  const resolving = { byId, lookups: new Lookups() };
  const visiting = new Set<string>();
  const visit = (id: string): void => {
    if (byId.has(id)) return;
    const declaration = known.get(id);
    if (declaration === undefined) throw new Error(`no value is declared as '${id}'`);
    if (visiting.has(id)) throw new Error(`values rest on each other: ${[...visiting, id].join(' → ')}`);
    visiting.add(id);
    for (const { inputs } of declaration.methods) for (const below of idsIn(inputs)) visit(below);
    visiting.delete(id);
    const perCase = declaration.methods.some(({ when, inputs }) => readsCase(when, inputs, byId));
    const methods = declaration.methods.map((method) => new CompiledMethod(method, resolving));
    byId.set(id, { declaration, index: byId.size, perCase, methods });
  };
  for (const each of declarations) visit(each.id);
  return { nodes: [...byId.values()], ...resolving };
}

export function compileInputs(inputs: Inputs, resolving: Resolving): CompiledInput[] {
  return Object.entries(inputs).map(([name, input]) => compileInput(name, input.source, resolving));
}

export function compileConditions(when: readonly Condition[], { lookups }: Resolving): CompiledCondition[] {
  return when.map((condition) => compileCondition(condition, lookups));
}

/** Whether a method or check depends on the case, given the nodes that it rests on. */
export function readsCase(when: readonly Condition[], inputs: Inputs, byId: ReadonlyMap<string, NetworkNode>): boolean {
  return when.some(isCaseCondition) || Object.values(inputs).some(({ source }) => sourceReadsCase(source, byId));
}

/** Ids of the values among inputs. */
function idsIn(inputs: Inputs): string[] {
  return Object.values(inputs).flatMap(({ source }) => ('id' in source ? [source.id] : []));
}

function sourceReadsCase(source: Source, byId: ReadonlyMap<string, NetworkNode>): boolean {
  if (source.from === 'case') return true;
  if (source.from === 'value') return byId.get(source.id)?.perCase ?? false;
  return (source.from === 'entry' || source.from === 'text') && source.inCase !== undefined;
}

function isCaseCondition(condition: Condition): boolean {
  return 'caseKey' in condition;
}

function repeated(declarations: readonly ValueDeclaration[]): string {
  const ids = declarations.map((each) => each.id);
  return ids.filter((id, index) => ids.indexOf(id) !== index).join(', ');
}
