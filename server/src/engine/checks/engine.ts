import { HANDBOOK } from '../values/handbook.ts';
import { buildNetwork, compileInputs, type Network, readsCase } from '../values/network.ts';
import { type CompiledCondition, type CompiledInput, compileCondition, compileInput } from '../values/readers.ts';
import { WINDOWS } from '../windows/all.ts';
import type { CompiledWindow } from '../windows/reading.ts';
import { CATALOGUE } from './catalogue.ts';
import type { Check, Part } from './declare.ts';

/** A part of a check with its conditions and inputs made ready to be read. */
export interface CompiledCheck {
  readonly check: Check;
  readonly part: Part;
  readonly perCase: boolean;
  readonly conditions: readonly CompiledCondition[];
  readonly needs: readonly CompiledInput[];
}

/** Handbook, bounds and checks, sorted and compiled once when the program starts. */
export const NETWORK: Network = buildNetwork([
  ...HANDBOOK,
  ...WINDOWS.flatMap((window) => window.bounds.map((bound) => bound.value)),
]);

export const COMPILED_WINDOWS: readonly CompiledWindow[] = WINDOWS.map((window) => ({
  window,
  conditions: window.when.map(compileCondition),
  compared: compileInput('compared', window.compared.source, NETWORK.byId),
  bounds: window.bounds.map((bound) => {
    const node = NETWORK.byId.get(bound.value.id);
    if (node === undefined) throw new Error(`the bound ${bound.id} is not in the network`);
    return { bound, node };
  }),
  recommendation: compileInputs(window.recommendation?.inputs ?? {}, NETWORK.byId),
}));

export const COMPILED_CHECKS: readonly CompiledCheck[] = CATALOGUE.flatMap((check) =>
  check.parts.map((part) => ({
    check,
    part,
    perCase: readsCase([{ when: part.when, inputs: part.needs }], NETWORK.byId),
    conditions: part.when.map(compileCondition),
    needs: compileInputs(part.needs, NETWORK.byId),
  })),
);
