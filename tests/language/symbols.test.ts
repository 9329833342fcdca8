// Ways to find a document, and to take hold of a part of it.
import { describe, expect, it } from 'vitest';
import { positionBehind, type Range } from './client.ts';
import { makeSite, openFile, startClient, WELL } from './site.ts';

interface Named {
  readonly name: string;
  readonly containerName: string;
  readonly location: { readonly uri: string; readonly range: Range };
}

describe('symbols of the workspace', () => {
  it('are wells, data sheets and serial numbers, open or not, by letters in their order', async () => {
    const site = makeSite();
    const other = 'wells/b1-01.yaml';
    site.write(
      other,
      site.read(WELL).replace('well: A2-07', 'well: B1-01').replace('pump.yaml }', 'pump.yaml, serial: PL-1183 }'),
    );
    const client = await startClient(site);
    const typed = site.read(WELL).replace('well: A2-07', 'well: A2-09');
    await openFile(client, site, WELL, typed);
    const find = async (query: string) => {
      const found = await client.request<Named[]>('workspace/symbol', { query });
      return found.map(({ name, containerName, location }) => [name, containerName, location.uri]);
    };
    await expect.poll(() => find('b1')).toEqual([['B1-01', 'well', site.uri(other)]]);
    expect(await find('a209')).toEqual([['A2-09', 'well', site.uri(WELL)]]);
    expect(await find('a207')).toEqual([]);
    expect(await find('pl83')).toEqual([['PL-1183', 'serial number, B1-01, equipment.pump', site.uri(other)]]);
    expect(await find('flat 16')).toEqual([['flat 16', 'data sheet, cable', site.uri('equipment/cable.yaml')]]);
    const [well] = await client.request<Named[]>('workspace/symbol', { query: 'a209' });
    expect(well?.location.range.end).toEqual(positionBehind(typed, 'well: A2-09'));
  });
});

describe('a growing selection', () => {
  it('goes from the value over its entry and its group to the whole text', async () => {
    interface Selection {
      readonly range: Range;
      readonly parent?: Selection;
    }
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL);
    await openFile(client, site, WELL);
    const [selection] = await client.request<Selection[]>('textDocument/selectionRange', {
      textDocument: { uri: site.uri(WELL) },
      positions: [positionBehind(text, 'tap: 2, voltage: 9')],
    });
    const lines = text.split('\n');
    const taken: string[] = [];
    for (let at = selection; at !== undefined; at = at.parent) {
      const { start, end } = at.range;
      taken.push(start.line === end.line ? (lines[start.line] ?? '').slice(start.character, end.character) : '…');
    }
    expect(taken.slice(0, 4)).toEqual([
      '900 V',
      'voltage: 900 V',
      '{ tap: 2, voltage: 900 V }',
      'transformer: { tap: 2, voltage: 900 V }',
    ]);
    expect(taken.at(-1)).toBe('…');
  });
});
