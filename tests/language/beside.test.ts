// What editors show above and beside the lines.
import { describe, expect, it } from 'vitest';
import { type LspClient, PUSHED, positionBehind, type Range } from './client.ts';
import { makeSite, openFile, type Site, startClient, TODAY, WELL } from './site.ts';

interface Hint {
  readonly position: { readonly line: number; readonly character: number };
  readonly label: string;
  readonly tooltip: string;
}
interface Lens {
  readonly range: Range;
  readonly command: { readonly title: string; readonly command: string; readonly arguments?: readonly string[] };
}

const COMMANDS = ['setproof.openWorksheet', 'setproof.openChecklist', 'setproof.showNotRun'];

async function hints(client: LspClient, site: Site, from: number, to: number): Promise<readonly Hint[]> {
  const range = { start: { line: from, character: 0 }, end: { line: to, character: 0 } };
  return client.request('textDocument/inlayHint', { textDocument: { uri: site.uri(WELL) }, range });
}

describe('inlay hints', () => {
  it('show what was computed, else the other units, and never two on a line', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL);
    await openFile(client, site, WELL);
    const all = await hints(client, site, 0, 999);
    const lines = all.map(({ position }) => position.line);
    expect(lines).toEqual([...new Set(lines)].sort((a, b) => a - b));
    const behind = (part: string, what: 'label' | 'tooltip' = 'label') => {
      const at = positionBehind(text, part);
      return all.find(({ position }) => position.line === at.line && position.character === at.character)?.[what];
    };
    expect(behind('{ tap: 2')).toBe('surface 137 to 240 V; window 752 to 1743 V');
    expect(behind('{ trip: 12 bar')).toMatch(/^[\d.]+ m of liquid above the intake$/);
    expect(behind('{ trip: 12 bar', 'tooltip')).toMatch(
      /window [\d.]+ to [\d.]+ bar\(g\), for the intake-pressure trip/,
    );
    expect(behind('length: 1440 m')).toMatch(/^[\d.]+ to [\d.]+ ohm; drops [\d.]+ to [\d.]+ V$/);
    // VS Code cuts off what is longer.
    for (const { label } of all) expect(label.length, label).toBeLessThanOrEqual(43);
    expect(behind('elevation: 340 m')).toBe('1115 ft');
    expect(behind('voltage: 400 V')).toBeUndefined();
  });

  it('are given for the lines asked for only', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const { line } = positionBehind(site.read(WELL), '{ tap: 2');
    await openFile(client, site, WELL);
    expect((await hints(client, site, line, line)).map(({ position }) => position.line)).toEqual([line]);
    expect(await hints(client, site, 0, 1)).toEqual([]);
  });

  it('turn the other way for one who writes in feet', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL).replace('elevation: 340 m', 'elevation: 1115 ft');
    await openFile(client, site, WELL, text);
    const at = positionBehind(text, 'elevation: 1115 ft');
    const [hint] = await hints(client, site, at.line, at.line);
    expect(hint).toMatchObject({ position: at, label: '339.9 m' });
  });
});

describe('code lenses', () => {
  const withLenses = (commands: readonly string[]) => ({
    capabilities: { textDocument: { ...PUSHED.textDocument, codeLens: {} } },
    initializationOptions: { today: TODAY, commands },
  });

  it('count in words, and lead to worksheet, checklist and what was not run', async () => {
    const site = makeSite();
    const client = await startClient(site, withLenses(COMMANDS));
    await openFile(client, site, WELL);
    const textDocument = { uri: site.uri(WELL) };
    const lenses = await client.request<Lens[]>('textDocument/codeLens', { textDocument });
    expect(lenses.map(({ command }) => command.command)).toEqual([COMMANDS[2], COMMANDS[0], COMMANDS[1]]);
    expect(lenses[0]?.command.title).toMatch(/^\d+ errors?, \d+ warnings?, .*\d+ checks not run$/);
    for (const { range, command } of lenses) {
      expect(range.start).toEqual({ line: 1, character: 0 });
      expect(command.arguments).toEqual([site.uri(WELL)]);
    }
    await openFile(client, site, 'equipment/motor.yaml');
    const sheet = { textDocument: { uri: site.uri('equipment/motor.yaml') } };
    const ofSheet = await client.request<Lens[]>('textDocument/codeLens', sheet);
    expect(ofSheet.map(({ command }) => command.title)).not.toContain('Open worksheet');
  });

  it('and hints are asked for anew when a data sheet changes what they say', async () => {
    const site = makeSite();
    const refreshes = { inlayHint: { refreshSupport: true }, codeLens: { refreshSupport: true } };
    const client = await startClient(site, { capabilities: { ...PUSHED, workspace: refreshes } });
    client.answer('workspace/codeLens/refresh', () => null);
    await openFile(client, site, WELL);
    const sheet = site.read('equipment/tx.yaml').replace('tap: 2, voltage: 900 V', 'tap: 2, voltage: 700 V');
    await openFile(client, site, 'equipment/tx.yaml', sheet);
    await client.message('workspace/codeLens/refresh');
    // This client refuses hints after all, and is served on.
    await client.message('workspace/inlayHint/refresh');
    expect(
      await client.request('textDocument/documentSymbol', { textDocument: { uri: site.uri(WELL) } }),
    ).not.toBeNull();
  });

  it('are not announced to a client that names no commands of its own', async () => {
    const { capabilities } = (await startClient(makeSite(), withLenses([]))).initialized;
    expect(capabilities).not.toHaveProperty('codeLensProvider');
    const able = (await startClient(makeSite(), withLenses(COMMANDS))).initialized;
    expect(able.capabilities).toHaveProperty('codeLensProvider');
  });
});
