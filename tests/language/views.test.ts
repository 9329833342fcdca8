// What the views of an editor ask: worksheet, checklist, wells, what was not run, and what changed since a revision.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type {
  ComparisonResult,
  FollowResult,
  PageResult,
  PanelName,
  PanelResult,
  Place,
  StarterResult,
  SummaryResult,
  WellsResult,
} from '../../server/src/language/views/protocol.ts';
import { type LspClient, positionBehind } from './client.ts';
import { GOOD_TAP, LOW_TAP, makeSite, openFile, type Site, startClient, TRANSFORMER, WELL } from './site.ts';

type Content = Extract<PanelResult, { html: string }>;

async function openWell(text?: string) {
  const site = makeSite();
  const client = await startClient(site);
  await openFile(client, site, WELL, text ?? site.read(WELL));
  return { site, client };
}

function panel(client: LspClient, site: Site, name: PanelName, shown?: string): Promise<Content> {
  return client.request('setproof/panel', { textDocument: { uri: site.uri(WELL) }, panel: name, shown });
}

/** The places to which the links with a text lead. */
function placesOf({ html, places }: Content, text: string): readonly (Place | undefined)[] {
  const links = [...html.matchAll(/<a href="#" data-place="(\d+)">(.*?)<\/a>/g)];
  return links.filter(([, , inner = '']) => inner.includes(text)).map(([, number]) => places[Number(number)]);
}

function idsIn(html: string): ReadonlySet<string> {
  return new Set([...html.matchAll(/ id="([^"]*)"/g)].map(([, id = '']) => id));
}

describe('the worksheet beside the editor', () => {
  it('has values, windows and pictures, and each entry leads to its place', async () => {
    const { site, client } = await openWell();
    const shown = await panel(client, site, 'worksheet');
    expect(shown.title).toBe('Worksheet A2-07');
    expect(shown.html).toContain('set to 900 V');
    expect(shown.html.match(/<svg [^>]*role="img"/g)?.length).toBeGreaterThan(6);
    expect(shown.html).not.toMatch(/<script|<img|<style| on\w+=| style=/);
    expect(shown.sheets).toContain(site.uri(TRANSFORMER));
    const numbers = [...shown.html.matchAll(/data-place="(\d+)"/g)].map(([, number]) => Number(number));
    expect(Math.max(...numbers)).toBe(shown.places.length - 1);
    const { line } = positionBehind(site.read(WELL), 'tap: 2');
    for (const place of placesOf(shown, 'setpoints.transformer.tap')) {
      expect(place).toMatchObject({ uri: site.uri(WELL), start: { line } });
    }
  });

  it('is sent again only when something in it may be another', async () => {
    const { site, client } = await openWell();
    const first = await panel(client, site, 'worksheet');
    expect(await panel(client, site, 'worksheet', first.id)).toEqual({ id: first.id, unchanged: true });
    client.change(site.uri(WELL), 2, [{ text: site.read(WELL).replace(GOOD_TAP, LOW_TAP) }]);
    const second = await panel(client, site, 'worksheet', first.id);
    expect(second.html).toContain('set to 600 V');
    expect(second.id).not.toBe(first.id);
  });

  it('shows a hostile name as text, and nothing of a data sheet', async () => {
    const hostile = `"<img src=x onerror=alert(1)>"`;
    const site = makeSite();
    const client = await startClient(site);
    await openFile(client, site, WELL, site.read(WELL).replace('well: A2-07', `well: ${hostile}`));
    const { html, title } = await panel(client, site, 'worksheet');
    expect(html).toContain('&lt;img src=x onerror=alert(1)&gt;');
    expect(html).not.toContain('<img');
    expect(title).toContain('<img src=x');
    await openFile(client, site, TRANSFORMER);
    const sheet = { textDocument: { uri: site.uri(TRANSFORMER) }, panel: 'worksheet' };
    expect(await client.request('setproof/panel', sheet)).toBeNull();
  });
});

describe('the checklist beside the editor', () => {
  it('has the steps with what is planned and allowed, each leading to its entry', async () => {
    const { site, client } = await openWell();
    const shown = await panel(client, site, 'checklist');
    expect(shown.title).toBe('Checklist A2-07');
    expect(shown.html).toContain('Hold point.');
    expect(shown.html).not.toMatch(/<script|<img|<input| style=/);
    const { line } = positionBehind(site.read(WELL), 'tap: 2');
    const [place] = placesOf(shown, 'settings.transformer.voltage');
    expect(place).toMatchObject({ uri: site.uri(WELL), start: { line } });
  });
});

describe('what rests on the entry at the cursor', () => {
  const follow = (client: LspClient, site: Site, name: PanelName, file: string, part: string) =>
    client.request<FollowResult | null>('setproof/follow', {
      textDocument: { uri: site.uri(WELL) },
      panel: name,
      cursor: { uri: site.uri(file), position: positionBehind(site.read(file), part) },
    });

  it('is told in words and by the rows of the panel, in the well and in its data sheets', async () => {
    const { site, client } = await openWell();
    const ids = idsIn((await panel(client, site, 'worksheet')).html);
    const inWell = await follow(client, site, 'worksheet', WELL, 'water_cut: 4');
    expect(inWell?.words).toMatch(/^fluid\.water_cut: \d+ values and bounds rest on it/);
    expect(inWell?.anchors).toContain('fluid.produced_density');
    const inSheet = await follow(client, site, 'worksheet', TRANSFORMER, 'tap: 2, voltage');
    expect(inSheet?.anchors.length).toBeGreaterThan(0);
    const onEntry = await follow(client, site, 'worksheet', WELL, '../equipment/tx.y');
    expect(onEntry?.anchors).toEqual(expect.arrayContaining([...(inSheet?.anchors ?? [])]));
    for (const anchor of [inWell, inSheet, onEntry].flatMap((each) => each?.anchors ?? []))
      expect(ids).toContain(anchor);
  });

  it('is a step of the checklist, or nothing', async () => {
    const { site, client } = await openWell();
    const ids = idsIn((await panel(client, site, 'checklist')).html);
    const steps = await follow(client, site, 'checklist', WELL, 'tap: 2');
    expect(steps?.words).toMatch(/^setpoints\.transformer\.tap: \d+ steps rest on it/);
    for (const anchor of steps?.anchors ?? []) expect(ids).toContain(anchor);
    expect(await follow(client, site, 'checklist', WELL, 'roughness')).toMatchObject({ anchors: [] });
  });
});

describe('counts', () => {
  it('list the wells of the workspace in words, as typed and as on disk', async () => {
    const site = makeSite();
    site.write('wells/a2-08.yaml', site.read(WELL).replace('A2-07', 'A2-08').replace(GOOD_TAP, LOW_TAP));
    const client = await startClient(site);
    await openFile(client, site, WELL);
    const wells = async () => {
      for (;;) {
        const result = await client.request<WellsResult>('setproof/wells', {});
        if (result.left === 0) return result.wells;
      }
    };
    const before = await wells();
    expect(before.map(({ name, folder, file }) => [name, folder, file])).toEqual([
      ['A2-07', 'wells', 'a2-07.yaml'],
      ['A2-08', 'wells', 'a2-08.yaml'],
    ]);
    for (const { words } of before) expect(words).toMatch(/^(no errors or warnings|\d+ \w+).*\d+ checks? not run$/);
    client.change(site.uri(WELL), 2, [{ text: site.read(WELL).replace(GOOD_TAP, LOW_TAP) }]);
    expect((await wells())[0]?.words).not.toBe(before[0]?.words);
  });

  it('say what was not run, what it lacks, and where that should be', async () => {
    const { site, client } = await openWell();
    const ask = (file: string) =>
      client.request<SummaryResult | null>('setproof/summary', { textDocument: { uri: site.uri(file) } });
    const summary = await ask(WELL);
    expect(summary?.isInstallation).toBe(true);
    expect(summary?.notRun).toHaveLength(summary?.counts.notRun ?? 0);
    expect(summary?.words).toMatch(new RegExp(`${summary?.counts.notRun} checks? not run$`));
    const lacking = summary?.notRun.find(({ check }) => check === 'drive.no-filter');
    expect(lacking?.missing.length).toBeGreaterThan(0);
    expect(lacking?.place.start.line).toBe(positionBehind(site.read(WELL), '\n  drive:').line);
    await openFile(client, site, TRANSFORMER);
    expect(await ask(TRANSFORMER)).toMatchObject({ isInstallation: false });
    await openFile(client, site, 'other.yaml', 'services: []\n');
    expect(await ask('other.yaml')).toBeNull();
  });
});

describe('documents to keep and to begin with', () => {
  it('are whole pages of worksheet and checklist', async () => {
    const { site, client } = await openWell();
    for (const name of ['worksheet', 'checklist'] as const) {
      const params = { textDocument: { uri: site.uri(WELL) }, panel: name, paper: 'letter' };
      const page = await client.request<PageResult>('setproof/page', params);
      expect(page.name).toBe(`a2-07-${name}`);
      expect(page.html).toMatch(/^<!doctype html>/);
      expect(page.html).toContain('size: letter');
    }
  });

  it('are commented starters, as the command line writes them', async () => {
    const client = await startClient(makeSite());
    const starter = (kind: string, lift?: string) =>
      client.request<StarterResult | null>('setproof/starter', { kind, lift });
    expect((await starter('installation', 'rotary'))?.text).toMatch(/^document: installation\/1$/m);
    expect((await starter('installation', 'rotary'))?.text).toMatch(/^lift: rotary/m);
    expect((await starter('cable'))?.text).toMatch(/^document: cable\/1$/m);
    expect(await starter('__proto__')).toBeNull();
  });
});

describe('since a revision', () => {
  /** Answers as a client with git does: the texts of a revision, absent where there was none. */
  function keepRevision(client: LspClient, texts: ReadonlyMap<string, string>) {
    client.answer('setproof/readAt', ({ uris }: { readonly uris: readonly string[] }) => ({
      files: uris.map((uri) => {
        const text = texts.get(uri);
        return text === undefined ? { absent: true } : { text };
      }),
    }));
  }
  const compare = (client: LspClient, site: Site) =>
    client.request<ComparisonResult>('setproof/comparison', {
      textDocument: { uri: site.uri(WELL) },
      revision: { id: '0123456789abcdef', label: 'HEAD' },
    });
  const allTexts = (site: Site) => {
    const names = ['cable', 'drive', 'gauge', 'lead', 'motor', 'pump', 'tx'].map((name) => `equipment/${name}.yaml`);
    const files = [WELL, 'setproof.policy.yaml', ...names];
    return new Map(files.map((file) => [site.uri(file), readFileSync(site.path(file), 'utf8')]));
  };

  it('entries, margins and findings that changed are told, as typed', async () => {
    const { site, client } = await openWell();
    keepRevision(client, allTexts(site));
    const same = await compare(client, site);
    expect(same.title).toBe('Since HEAD: a2-07.yaml');
    expect(same.html).not.toContain('tap.below-window');
    client.change(site.uri(WELL), 2, [{ text: site.read(WELL).replace(GOOD_TAP, LOW_TAP) }]);
    const { html } = await compare(client, site);
    expect(html).toContain('Comparison of HEAD');
    expect(html).toContain('tap.below-window');
    expect(html).toContain('600 V');
    expect(html).toContain('900 V');
    expect(html).not.toMatch(/<script|<style| style=/);
  });

  it('a data sheet that was another then counts too, and a well that was not there is new', async () => {
    const { site, client } = await openWell();
    const texts = allTexts(site);
    const then = site.read(TRANSFORMER).replace('tap: 2, voltage: 900 V', 'tap: 2, voltage: 700 V');
    keepRevision(client, texts.set(site.uri(TRANSFORMER), then));
    expect((await compare(client, site)).html).toContain('700 V');
    keepRevision(client, new Map());
    expect((await compare(client, site)).html).toMatch(/new|added/i);
  });
});
