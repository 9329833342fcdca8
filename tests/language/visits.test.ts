import { describe, expect, it } from 'vitest';
import { positionBehind } from './client.ts';
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

  it('are completed from that checklist: items not yet answered, units that fit, words, names, and what is planned', async () => {
    const site = makeSite();
    const text = [
      'document: readings/1',
      `installation: ../${WELL}`,
      'visit: { crew: [first hand, second hand] }',
      'readings:',
      '  - { item: surface.earth_resistance, value: 2 }',
      '  - { item: surface.lockout, value:  }',
      '  - item: surface.cable.res',
      '  - item: inspection.motor.winding_resistance',
      '    values: [1, 2]',
      '    by: ',
      'as_left:',
      '  protection:',
      '    intake_pressure_low: { trip:  }',
      '',
    ].join('\n');
    site.write(VISIT, text);
    const client = await startClient(site);
    await openFile(client, site, VISIT);
    const offered = async (before: string) => {
      const params = { textDocument: { uri: site.uri(VISIT) }, position: positionBehind(text, before) };
      const { items } = await client.request<{ items: Offered[] }>('textDocument/completion', params);
      return items;
    };
    const labels = async (before: string) => (await offered(before)).map(({ label }) => label);

    const items = await offered('item: surface.cable.res');
    expect(items.map(({ label }) => label)).toEqual(['surface.cable.resistance']);
    expect(items[0]?.detail).toBe('Surface: to read in ohm');
    const anew = await labels('- item: ');
    expect(anew).toContain('start.hold');
    // Answered above, and a caution.
    expect(anew).not.toContain('surface.lockout');
    expect(anew.filter((each) => each.includes('caution'))).toEqual([]);

    expect((await labels('value: 2'))[0]).toBe('2 ohm');
    expect(await labels('value: 2')).toContain('2 Mohm');
    expect(await labels('lockout, value: ')).toEqual(['yes', 'no']);
    expect((await offered('values: [1, 2'))[0]).toMatchObject({ label: '2 ohm', detail: 'B-C, the unit of the sheet' });
    expect(await labels('by: ')).toEqual(['first hand', 'second hand']);
    expect(await offered('trip: ')).toMatchObject([{ label: '12 bar', detail: 'as planned' }]);
  });
});

interface Offered {
  readonly label: string;
  readonly detail: string;
}
