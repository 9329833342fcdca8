import { afterAll, describe, expect, it } from 'vitest';
import { type DeviationsArguments, deviations } from '../../server/src/commands/deviations.ts';
import { makeFolder, removeFolder, run } from './support.ts';

const DEVIATIONS = [
  '{ check: cable.too-short, up_to: 12 m, reason: "spliced, on site | by crane", approved_by: chief engineer, until: 2026-12-31 }',
  '{ check: cable.too-short, reason: no longer, approved_by: chief engineer, until: 2026-03-13 }',
  '{ check: revision.unreviewed, reason: alone on shift, until: 2026-12-31 }',
  '{ check: cable.too-shrt, reason: misspelt, approved_by: chief engineer, until: 2026-12-31 }',
  '{ check: revision.date-in-future, reason: was needed once, approved_by: chief engineer, until: 2026-12-31 }',
];
const WELL = `document: installation/1
site: { well: X-1 }
revision: { date: 2026-01-02 }
lift: linear
equipment: {}
operation: { cases: [] }
deviations:
${DEVIATIONS.map((each) => `  - ${each}`).join('\n')}
`;
const folder = makeFolder({ 'x-1.yaml': WELL, 'sheet.yaml': 'document: cable/1\nname: a cable\n' });
afterAll(() => removeFolder(folder));

const list = (args: Partial<DeviationsArguments> = {}) =>
  run(folder, (around) => deviations({ paths: [], today: '2026-03-14', ...args }, around));

describe('setproof deviations', () => {
  it('tells each deviation of each installation with what becomes of it', async () => {
    const { status, out } = await list({ format: 'json' });
    const { installations, deviations: found } = JSON.parse(out);
    expect(status).toBe(0);
    expect(installations).toBe(1);
    expect(found.map(({ check, state }: { check: string; state: string }) => [check, state])).toEqual([
      ['cable.too-short', 'in force'],
      ['cable.too-short', 'expired'],
      ['revision.unreviewed', 'not approved'],
      ['cable.too-shrt', 'of no known check'],
      ['revision.date-in-future', 'not needed'],
    ]);
    expect(found[0]).toMatchObject({ path: 'x-1.yaml', well: 'X-1', key: 'deviations[0]', upTo: '12 m', case: '' });
  });

  it('goes by the day: the last one still counts', async () => {
    const { out } = await list({ format: 'json', today: '2026-03-13' });
    expect(JSON.parse(out).deviations[1].state).toBe('in force');
  });

  it('writes them for a terminal', async () => {
    const { out } = await list();
    expect(out).toContain('X-1 (x-1.yaml)');
    expect(out).toContain('cable.too-short: in force');
    expect(out).toContain('approved by nobody: alone on shift');
    expect(out).toMatch(/5 deviations in 1 installation on 2026-03-14: 1 in force, 1 expired/);
  });

  it('writes a table whose cells stay cells', async () => {
    const { out } = await list({ format: 'markdown' });
    const rows = out.split('\n').filter((line) => line.startsWith('| X'));
    expect(rows).toHaveLength(5);
    expect(rows[0]).toContain('spliced, on site \\| by crane');
  });

  it('says what could not be read, and ends with 2', async () => {
    const { status, err } = await list({ paths: ['not-there'] });
    expect(status).toBe(2);
    expect(err).toContain('not-there');
  });
});
