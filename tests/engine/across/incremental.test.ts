import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Change, Repository } from '../../../server/src/engine/index.ts';
import { examples } from '../../support/chance.ts';
import { text } from './some-well.ts';

const PATHS = ['a.yaml', 'b.yaml', 'c.yaml', 'd.yaml', 'e.yaml'];

type Step = { readonly changes: readonly Change[] } | { readonly without: string } | { readonly shelve: string };

const change: fc.Arbitrary<Change> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ path: fc.constantFrom(...PATHS), text }) },
  { weight: 1, arbitrary: fc.record({ path: fc.constantFrom(...PATHS), absent: fc.constant(true as const) }) },
);
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ changes: fc.array(change, { minLength: 1, maxLength: 3 }) }) },
  { weight: 1, arbitrary: fc.record({ without: fc.constantFrom(...PATHS) }) },
  { weight: 1, arbitrary: fc.record({ shelve: fc.constantFrom(...PATHS) }) },
);

const EMPTY = Repository.empty({ root: '', today: '2026-06-01' });

function taken(repository: Repository, each: Step): Repository {
  if ('changes' in each) return repository.update(each.changes);
  return 'without' in each ? repository.without([each.without]) : repository.shelve([each.shelve]);
}

/** All that is said of all files, in a form that two sets of documents can be compared by. */
function said(repository: Repository): unknown {
  return repository.paths().map((path) => {
    const file = repository.check(path);
    return { path, findings: file?.findings, statuses: [...(file?.statuses ?? [])] };
  });
}

describe('what is found across files', () => {
  it('does not depend on the order in which files come', () => {
    fc.assert(
      fc.property(fc.array(text, { minLength: 2, maxLength: 5 }), fc.infiniteStream(fc.nat()), (texts, keys) => {
        const changes = texts.map((each, at) => ({ path: PATHS[at] as string, text: each }));
        const shuffled = changes
          .map((each) => ({ each, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ each }) => each);
        const oneByOne = shuffled.reduce((repository, each) => {
          const next = repository.update([each]);
          next.check(each.path);
          return next;
        }, EMPTY);
        expect(said(oneByOne)).toEqual(said(EMPTY.update(changes)));
      }),
      examples(60),
    );
  });

  it('is the same after any edits as if all were read anew', () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 12 }), (steps) => {
        let repository = EMPTY;
        const kept = new Map<string, string>();
        const shelved = new Map<string, string>();
        for (const each of steps) {
          repository = taken(repository, each);
          note(each, kept, shelved);
          said(repository);
        }
        const anew = [...shelved, ...kept].map(([path, written]) => ({ path, text: written }));
        const full = EMPTY.update(anew).shelve([...shelved.keys()]);
        expect(said(repository)).toEqual(said(full));
      }),
      examples(60),
    );
  });
});

/** Keeps a plain account of which texts are there, and which were let go of. */
function note(each: Step, kept: Map<string, string>, shelved: Map<string, string>): void {
  if ('changes' in each) {
    for (const one of each.changes) {
      shelved.delete(one.path);
      if ('text' in one) kept.set(one.path, one.text);
      else kept.delete(one.path);
    }
  } else if ('without' in each) {
    kept.delete(each.without);
    shelved.delete(each.without);
  } else {
    const written = kept.get(each.shelve);
    if (written !== undefined) shelved.set(each.shelve, written);
    kept.delete(each.shelve);
  }
}
