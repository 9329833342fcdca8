import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SAMPLES } from '../support/project.ts';
import { KINDS, MISTAKES } from './list.ts';
import { WELLS } from './mistake.ts';
import { CLEAN, type Outcome, planted, serious } from './plant.ts';

const LEAST_SHARE = 0.98;
/** Hundreds of wells are checked in one test, perhaps on a busy machine, ms. */
const LONG = 300_000;

/** Each mistake with a word on what was said instead. */
function missed({ mistake, found }: Outcome): string {
  const said = found.map(({ severity, check, key }) => `${severity} ${check} at '${key}'`).join('; ');
  return `  ${mistake.id} (${mistake.well}: ${mistake.did}): ${said || 'nothing was said'}`;
}

function report(outcomes: ReadonlyMap<string, readonly Outcome[]>): string {
  const lines = [...outcomes].map(([kind, all]) => {
    const caught = all.filter((each) => each.caught).length;
    return `${String(caught).padStart(4)} of ${String(all.length).padStart(3)} caught: ${kind}`;
  });
  const left = [...outcomes.values()].flat().filter((each) => !each.caught);
  return [...lines, `${left.length} missed:`, ...left.map(missed)].join('\n');
}

describe('the list of known mistakes', () => {
  it('is long enough, each mistake with a name of its own, in every well', () => {
    expect(MISTAKES.length).toBeGreaterThanOrEqual(120);
    expect(new Set(MISTAKES.map(({ id }) => id)).size).toBe(MISTAKES.length);
    expect([...new Set(MISTAKES.map(({ well }) => well))].sort()).toEqual(Object.keys(WELLS));
  });

  it.each(Object.keys(WELLS) as (keyof typeof WELLS)[])('starts from %s, of which nothing is said', (well) => {
    const said = serious(CLEAN, join(SAMPLES, WELLS[well])).map(({ check, key }) => `${check} at '${key}'`);
    expect(said).toEqual([]);
  });

  it(
    `is caught at its place, ${LEAST_SHARE * 100} % of it or more`,
    () => {
      const outcomes = new Map(Object.entries(KINDS).map(([kind, mistakes]) => [kind, mistakes.map(planted)]));
      const all = [...outcomes.values()].flat();
      console.log(report(outcomes));
      expect(all.filter((each) => each.caught).length / all.length).toBeGreaterThanOrEqual(LEAST_SHARE);
    },
    LONG,
  );
});
