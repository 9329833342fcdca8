import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keysOf, LedgerReader, LedgerWriter, Repository } from '../../../server/src/engine/index.ts';
import { type Well, wellText } from './wells.ts';

const EMPTY = Repository.empty({ root: '', today: '2026-06-01' });

/** Wells out of few names, numbers and depths, so that most sets hold something equal. */
const text = fc
  .record({
    well: fc.constantFrom('T-1', 'T-2', 't 1', 'T-3'),
    field: fc.constantFrom('Testfield', 'Other', undefined),
    pad: fc.constantFrom('T', 'U'),
    serials: fc.tuple(fc.constantFrom('P-1', 'P-2', 'TBD'), fc.constantFrom('M-1', 'M-2')),
    depth: fc.constantFrom(1000, 1200),
    current: fc.constantFrom(12, 16),
    restart: fc.constantFrom('{ mode: automatic, delay: 2 h, after: [undervoltage] }', '{ mode: manual }'),
  })
  .map((told: Well) => wellText(1, told));

describe('a fleet in numbers', () => {
  it('gives the findings that one with all facts gives, however many share a key', () => {
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 24 }), (texts) => {
        const changes = texts.map((each, at) => ({ path: `w${String(at).padStart(2, '0')}.yaml`, text: each }));
        const all = EMPTY.update(changes);
        const writer = new LedgerWriter();
        for (const { path } of changes) {
          const facts = all.factsOf(path);
          if (facts !== undefined) writer.add(path, keysOf(facts));
        }
        const fleet = new LedgerReader(writer.finish(), (path) => all.factsOf(path));
        for (const change of changes) {
          const alone = EMPTY.update([change]).check(change.path, fleet);
          expect(alone?.findings).toEqual(all.check(change.path)?.findings);
          expect([...(alone?.statuses ?? [])]).toEqual([...(all.check(change.path)?.statuses ?? [])]);
        }
      }),
      { numRuns: 25 },
    );
  }, 60_000);
});
