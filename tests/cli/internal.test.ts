import { afterAll, expect, test, vi } from 'vitest';
import { makeFolder, removeFolder, run, WELL } from './support.ts';

vi.mock('../../server/src/engine/checks/catalogue.ts', async (importOriginal) => {
  const { CATALOGUE } = await importOriginal<typeof import('../../server/src/engine/checks/catalogue.ts')>();
  const { check: declare } = await import('../../server/src/engine/checks/declare.ts');
  const broken = declare({
    ...{ id: 'test.broken', title: 'a check that throws', compares: '', why: '', mend: '', source: '' },
    severity: 'note',
    needs: {},
    run: () => {
      throw new Error('out of order');
    },
  });
  return { CATALOGUE: [...CATALOGUE, broken] };
});
const { check } = await import('../../server/src/commands/check.ts');

const folder = makeFolder({ 'a.yaml': `${WELL}reservoir: { pressure: 78 }\n` });
afterAll(() => removeFolder(folder));

test('a check that fails itself ends with 2; the others go on', async () => {
  const { status, out } = await run(folder, (surroundings) => check({ paths: [], format: 'json' }, surroundings));
  const ids = JSON.parse(out).files[0].findings.map((each: { check: string }) => each.check);
  expect(status).toBe(2);
  expect(ids).toContain('internal');
  expect(ids).toContain('units.missing');
});
