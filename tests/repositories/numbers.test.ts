import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { knownWells } from '../support/known-wells.ts';
import { limitsText, numbersOf } from '../support/numbers.ts';
import { BaseWell, telling } from '../support/variations.ts';

// Every number of the known wells as it was when they were looked through; whoever changes one says why in the commit.
// Regression only: that the numbers are right is shown in tests/reference. Renew with `npx vitest run numbers -u`.

const FOLDER = join(import.meta.dirname, 'numbers');

describe('the numbers of the known wells', () => {
  it.each(knownWells())('$name', async ({ name, file }) => {
    await expect(numbersOf(file())).toMatchFileSnapshot(join(FOLDER, `${name}.txt`));
  });

  it('rest on these limits', async () => {
    await expect(limitsText()).toMatchFileSnapshot(join(FOLDER, 'limits.txt'));
  });

  it.each(['linear', 'rotary'] as const)(
    'come to what they came to for each entry of a %s well taken out, halved or doubled',
    async (lift) => {
      const lines = [...telling(new BaseWell(lift))].map(([name, fingerprint]) => `${fingerprint}  ${name}`);
      await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(join(FOLDER, `variations-${lift}.txt`));
    },
    120_000,
  );
});
