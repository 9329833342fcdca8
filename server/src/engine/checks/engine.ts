import { HANDBOOK } from '../values/handbook.ts';
import {
  buildNetwork,
  CompiledReading,
  compileConditions,
  compileInputs,
  type Network,
  readsCase,
} from '../values/network.ts';
import { compileInput } from '../values/readers.ts';
import { WINDOWS } from '../windows/all.ts';
import type { CompiledWindow } from '../windows/reading.ts';
import { CATALOGUE } from './catalogue.ts';
import type { Check, Part } from './declare.ts';

/** A part of a check with what it reads. */
export class CompiledCheck extends CompiledReading {
  readonly check: Check;
  readonly part: Part;
  readonly perCase: boolean;

  constructor(check: Check, part: Part, network: Network) {
    super(part.when, part.needs, network);
    this.check = check;
    this.part = part;
    this.perCase = readsCase(part.when, part.needs, network.byId);
  }
}

/** Handbook, bounds and checks, sorted once when the program starts. */
export const NETWORK: Network = buildNetwork([
  ...HANDBOOK,
  ...WINDOWS.flatMap((window) => window.bounds.map((bound) => bound.value)),
]);

export const COMPILED_WINDOWS: readonly CompiledWindow[] = WINDOWS.map((window) => ({
  window,
  conditions: compileConditions(window.when, NETWORK),
  compared: compileInput('compared', window.compared.source, NETWORK),
  bounds: window.bounds.map((bound) => {
    const node = NETWORK.byId.get(bound.value.id);
    if (node === undefined) throw new Error(`the bound ${bound.id} is not in the network`);
    return { bound, node };
  }),
  recommendation: compileInputs(window.recommendation?.inputs ?? {}, NETWORK),
}));

export const COMPILED_CHECKS: readonly CompiledCheck[] = CATALOGUE.flatMap((check) =>
  check.parts.map((part) => new CompiledCheck(check, part, NETWORK)),
);
