import fc from 'fast-check';

// A gate must say the same of the same commit, so the seed of the property tests is fixed. Another: SETPROOF_SEED=1234 npx vitest run
fc.configureGlobal({ seed: Number(process.env.SETPROOF_SEED ?? 20_261_125) });

/** How many examples a property is tried with: as many as are `usual` in a gate, or what SETPROOF_RUNS says, for a long night. */
export function examples(usual: number): { readonly numRuns: number } {
  return { numRuns: Number(process.env.SETPROOF_RUNS ?? usual) };
}
