import type { Condition, Inputs, Method, Source, ValueDeclaration } from './declare.ts';
import { type CompiledCondition, type CompiledInput, compileCondition, compileInput } from './readers.ts';

/** A method with its inputs and conditions made ready to be read. */
export interface CompiledMethod {
  readonly method: Method;
  readonly conditions: readonly CompiledCondition[];
  readonly inputs: readonly CompiledInput[];
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
export interface Network {
  readonly nodes: readonly NetworkNode[];
  readonly byId: ReadonlyMap<string, NetworkNode>;
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
  const visiting = new Set<string>();
  const visit = (id: string): NetworkNode => {
    const done = byId.get(id);
    if (done !== undefined) return done;
    const declaration = known.get(id);
    if (declaration === undefined) throw new Error(`no value is declared as '${id}'`);
    if (visiting.has(id)) throw new Error(`values rest on each other: ${[...visiting, id].join(' → ')}`);
    visiting.add(id);
    for (const below of idsIn(declaration)) visit(below);
    visiting.delete(id);
    const methods = declaration.methods.map((method) => compileMethod(method, byId));
    const node = { declaration, index: byId.size, perCase: readsCase(declaration.methods, byId), methods };
    byId.set(id, node);
    return node;
  };
  for (const each of declarations) visit(each.id);
  return { nodes: [...byId.values()], byId };
}

export function compileInputs(inputs: Inputs, byId: ReadonlyMap<string, NetworkNode>): CompiledInput[] {
  return Object.entries(inputs).map(([name, input]) => compileInput(name, input.source, byId));
}

/** Whether a method or check depends on the case, given the nodes that it rests on. */
export function readsCase(
  methods: readonly { readonly when: readonly Condition[]; readonly inputs: Inputs }[],
  byId: ReadonlyMap<string, NetworkNode>,
): boolean {
  return methods.some(
    ({ when, inputs }) =>
      when.some(isCaseCondition) || Object.values(inputs).some(({ source }) => sourceReadsCase(source, byId)),
  );
}

/** Ids of the values that a declaration names as inputs. */
export function idsIn(declaration: Pick<ValueDeclaration, 'methods'>): string[] {
  const sources = declaration.methods.flatMap((method) => Object.values(method.inputs).map((input) => input.source));
  return sources.flatMap((source) => ('id' in source ? [source.id] : []));
}

function compileMethod(method: Method, byId: ReadonlyMap<string, NetworkNode>): CompiledMethod {
  return {
    method,
    conditions: method.when.map(compileCondition),
    inputs: compileInputs(method.inputs, byId),
  };
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
