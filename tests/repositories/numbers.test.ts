import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { limitsText, numbersOf } from '../support/numbers.ts';
import { checked, openProject, SAMPLES } from '../support/project.ts';

// Every number of the sample wells as it was when they were looked through; whoever changes one says why in the commit.
// Regression only: that the numbers are right is shown in tests/reference. Renew with `npx vitest run numbers -u`.

const WELLS = ['a/qm-a1', 'a/qm-a2', 'a/qm-a3', 'b/qm-b1', 'b/qm-b2', 'b/qm-b3'].map((name) =>
  join(SAMPLES, `pad-${name}.yaml`),
);

describe('the numbers of the samples', () => {
  it.each(WELLS)('%s', async (path) => {
    const text = numbersOf(checked(openProject(path), path));
    await expect(text).toMatchFileSnapshot(join(import.meta.dirname, 'numbers', `${basename(path, '.yaml')}.txt`));
  });

  it('rest on these limits', async () => {
    await expect(limitsText()).toMatchFileSnapshot(join(import.meta.dirname, 'numbers', 'limits.txt'));
  });
});
