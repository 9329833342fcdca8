import type { Neighbours, WellFacts } from '../engine/index.ts';

/**
 * What the checks across files see of the other installations, as a text: equal as long as they would find the same,
 * and small, since one is kept for every document of the workspace.
 */
export function surroundingsOf(neighbours: Neighbours | undefined): string {
  return JSON.stringify(neighbours, (_, value) => (isFacts(value) ? whatIsSaidOf(value) : value)) ?? '';
}

/** What an installation gives the others to compare with, as a text. */
export function factsText(facts: WellFacts | undefined): string {
  return JSON.stringify(facts, (_, value) => (value instanceof Map ? [...value] : value)) ?? '';
}

function isFacts(value: unknown): value is WellFacts {
  return typeof value === 'object' && value !== null && 'comparable' in value;
}

/** Findings name the other's file and name, and point at its entries. */
function whatIsSaidOf({ path, well, serials, restartDelay }: WellFacts) {
  return { path, well, serials, restartDelay: restartDelay ?? null };
}
