import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keysOf, LedgerReader, LedgerWriter, Repository } from '../../../server/src/engine/index.ts';
import { examples } from '../../support/chance.ts';
import { text } from './some-well.ts';

const EMPTY = Repository.empty({ root: '', today: '2026-06-01' });

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
      examples(25),
    );
  });
});
