import { describe, expect, it } from 'vitest';
import { makeSite, openFile, startClient, WELL } from './site.ts';

const VISIT = 'visits/a2-07.yaml';
const TEXT = [
  'document: readings/1',
  `installation: ../${WELL}`,
  'readings:',
  '  - { item: surface.earth_resistance, value: 12 ohm }',
  '  - { item: surface.earth_resistanse, value: 2 ohm }',
  '',
].join('\n');

describe('readings in an editor', () => {
  it('are judged by the checklist of the installation, which no editor holds', async () => {
    const site = makeSite();
    site.write(VISIT, TEXT);
    const client = await startClient(site);
    const { diagnostics } = await openFile(client, site, VISIT);
    const own = diagnostics.map(({ code, range }) => `${code} in line ${range.start.line + 1}`);
    expect(own).toContain('readings.out-of-limit in line 4');
    expect(own).toContain('readings.unknown-item in line 5');
    expect(own.filter((each) => each.startsWith('readings.missing'))).toHaveLength(1);
  });
});
