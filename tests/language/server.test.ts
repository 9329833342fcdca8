import { describe, expect, it } from 'vitest';
import { type Diagnostic, LspClient, PULLED, positionBehind, StdioTransport } from './client.ts';
import { GOOD_TAP, LOW_TAP, makeSite, openFile, startClient, TRANSFORMER, WELL } from './site.ts';

const CHANGED = 2;
const CREATED = 1;

function codes(diagnostics: readonly Diagnostic[], prefix = ''): string[] {
  return diagnostics.map(({ code }) => code).filter((code) => code.startsWith(prefix));
}

describe('a session', () => {
  it('announces what it can, takes a client without a process id, and ends with 0', async () => {
    const transport = new StdioTransport();
    const client = new LspClient(transport);
    const { capabilities } = await client.initialize();
    expect(capabilities).toMatchObject({ hoverProvider: true, textDocumentSync: { openClose: true, change: 2 } });
    await client.shutdown();
    expect(await transport.exited).toBe(0);
  });

  it('ends with 1 where nobody said goodbye', async () => {
    const transport = new StdioTransport();
    const client = new LspClient(transport);
    await client.initialize();
    client.notify('exit', undefined);
    expect(await transport.exited).toBe(1);
  });

  it('talks over standard input and output unasked', async () => {
    const transport = new StdioTransport([]);
    const client = new LspClient(transport);
    expect((await client.initialize()).capabilities).toHaveProperty('completionProvider');
    await client.shutdown();
  });
});

describe('pushed diagnostics', () => {
  it('rest on the data sheets from the first publication on', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL).replace(GOOD_TAP, LOW_TAP);
    const { version, diagnostics } = await openFile(client, site, WELL, text);
    expect(version).toBe(1);
    const low = diagnostics.find(({ code }) => code === 'tap.below-window');
    expect(low?.range.end).toEqual(positionBehind(text, '{ tap: 1'));
    expect(low?.message).toContain('600 V');
    expect(low?.codeDescription?.href).toBe('file:///pages/tap.below-window.md');
    expect(low?.relatedInformation?.map(({ location }) => location.uri)).toContain(site.uri('equipment/motor.yaml'));
  });

  it('count what was not run in one note at the first line, and fade what serves nothing', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const deviation = 'check: tap.above-window, reason: trial, approved_by: lead engineer, until: 2099-12-31';
    const text = `${site.read(WELL)}deviations: [ { ${deviation} } ]\n`;
    const { diagnostics } = await openFile(client, site, WELL, text);
    const notRun = diagnostics.filter(({ code }) => code === 'document.not-run');
    expect(notRun).toMatchObject([{ severity: 3, range: { start: { line: 1, character: 0 } } }]);
    expect(notRun[0]?.message).toMatch(/^\d+ checks were not run; what is missing most is '/);
    const faded = diagnostics.filter(({ tags }) => tags?.includes(1));
    expect(faded.map(({ code }) => code)).toEqual(['deviation.not-needed']);
  });

  it('answer every change, also one that changes nothing', async () => {
    const site = makeSite();
    const client = await startClient(site);
    await openFile(client, site, WELL);
    client.change(site.uri(WELL), 2, []);
    await client.publication(site.uri(WELL), ({ version }) => version === 2);
    client.change(site.uri(WELL), 3, [{ text: site.read(WELL) }]);
    await client.publication(site.uri(WELL), ({ version }) => version === 3);
  });

  it('end a burst of keys with what the last one left', async () => {
    const site = makeSite();
    const client = await startClient(site);
    await openFile(client, site, WELL);
    const end = positionBehind(site.read(WELL), 'transformer: { tap: 2');
    const range = { start: { ...end, character: end.character - 1 }, end };
    for (let version = 2; version <= 60; version++) {
      client.change(site.uri(WELL), version, [{ range, text: version % 2 === 0 ? '1' : '6' }]);
    }
    client.change(site.uri(WELL), 61, [{ range, text: '1' }]);
    const last = await client.publication(site.uri(WELL), ({ version }) => version === 61);
    expect(codes(last.diagnostics)).toContain('tap.below-window');
    await client.request('textDocument/hover', { textDocument: { uri: site.uri(WELL) }, position: range.start });
    expect(client.publications.at(-1)?.version).toBe(61);
    const versions = client.publications.flatMap(({ version }) => version ?? []);
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
  });

  it('leave files of others alone', async () => {
    const site = makeSite();
    site.write('other.yaml', 'services:\n  - !tag x: [\n');
    const client = await startClient(site);
    expect((await openFile(client, site, 'other.yaml')).diagnostics).toEqual([]);
  });

  it('carry what stands open in another editor, not what is on disk', async () => {
    const site = makeSite();
    const client = await startClient(site);
    expect(codes((await openFile(client, site, WELL)).diagnostics, 'tap.')).not.toContain('tap.below-window');
    await openFile(
      client,
      site,
      TRANSFORMER,
      site.read(TRANSFORMER).replace('tap: 2, voltage: 900 V', 'tap: 2, voltage: 700 V'),
    );
    await client.publication(site.uri(WELL), ({ diagnostics }) => codes(diagnostics).includes('tap.below-window'));
    client.notify('textDocument/didClose', { textDocument: { uri: site.uri(TRANSFORMER) } });
    const healed = () => client.publications.filter(({ uri }) => uri === site.uri(WELL)).at(-1);
    await client.publication(site.uri(WELL), () => !codes(healed()?.diagnostics ?? []).includes('tap.below-window'));
  });
});

describe('files on disk', () => {
  it('re-check wells that no editor holds', async () => {
    const site = makeSite();
    const client = await startClient(site);
    site.write(TRANSFORMER, site.read(TRANSFORMER).replace('tap: 2, voltage: 900 V', 'tap: 2, voltage: 700 V'));
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: site.uri(TRANSFORMER), type: CHANGED }] });
    const { version } = await client.publication(site.uri(WELL), ({ diagnostics }) =>
      codes(diagnostics).includes('tap.below-window'),
    );
    expect(version).toBeUndefined();
  });

  it('heal a document that was opened before its data sheets were there', async () => {
    const site = makeSite();
    const sheet = site.read(TRANSFORMER);
    site.remove(TRANSFORMER);
    const client = await startClient(site);
    expect(codes((await openFile(client, site, WELL)).diagnostics)).toContain('reference.not-found');
    site.write(TRANSFORMER, sheet);
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: site.uri(TRANSFORMER), type: CREATED }] });
    await client.publication(site.uri(WELL), ({ diagnostics }) => !codes(diagnostics).includes('reference.not-found'));
  });

  it('are asked for again when a document is opened anew', async () => {
    const site = makeSite();
    const sheet = site.read(TRANSFORMER);
    site.remove(TRANSFORMER);
    const client = await startClient(site);
    await openFile(client, site, WELL);
    site.write(TRANSFORMER, sheet);
    client.open(site.uri(WELL), site.read(WELL), 7);
    const { diagnostics } = await client.publication(site.uri(WELL), ({ version }) => version === 7);
    expect(codes(diagnostics)).not.toContain('reference.not-found');
  });

  it('bring a policy into force when it changes', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const text = site.read(WELL).replace(GOOD_TAP, LOW_TAP);
    expect(codes((await openFile(client, site, WELL, text)).diagnostics)).toContain('tap.below-window');
    site.write(
      'setproof.policy.yaml',
      'document: policy/1\nchecks: { tap.below-window: { set_aside: "for a test" } }\n',
    );
    client.notify('workspace/didChangeWatchedFiles', {
      changes: [{ uri: site.uri('setproof.policy.yaml'), type: CHANGED }],
    });
    await client.publication(site.uri(WELL), ({ diagnostics }) => !codes(diagnostics).includes('tap.below-window'));
  });
});

describe('wells of a workspace', () => {
  it('are compared with those that no editor holds', async () => {
    const site = makeSite();
    site.write('wells/a2-08.yaml', site.read(WELL));
    const client = await startClient(site);
    await openFile(client, site, WELL);
    const isTwin = (code: string) => code.startsWith('identity.');
    await client.publication(site.uri(WELL), ({ diagnostics }) => codes(diagnostics).some(isTwin));
    await client.publication(site.uri('wells/a2-08.yaml'), ({ diagnostics }) => codes(diagnostics).some(isTwin));
  });
});

describe('pulled diagnostics', () => {
  interface Report {
    readonly kind: string;
    readonly resultId: string;
    readonly items: readonly Diagnostic[];
  }

  it('are handed out when asked for, and never pushed', async () => {
    const site = makeSite();
    const client = await startClient(site, { capabilities: PULLED });
    client.open(site.uri(WELL), site.read(WELL).replace(GOOD_TAP, LOW_TAP));
    const textDocument = { uri: site.uri(WELL) };
    const report = await client.request<Report>('textDocument/diagnostic', { textDocument });
    expect(codes(report.items)).toContain('tap.below-window');
    const again = await client.request<Report>('textDocument/diagnostic', {
      textDocument,
      previousResultId: report.resultId,
    });
    expect(again.kind).toBe('unchanged');
    expect(client.publications).toEqual([]);
  });

  it('never rest on an older text than the last key', async () => {
    const site = makeSite();
    const client = await startClient(site, { capabilities: PULLED });
    const textDocument = { uri: site.uri(WELL) };
    client.open(site.uri(WELL), site.read(WELL));
    client.change(site.uri(WELL), 2, [{ text: site.read(WELL).replace(GOOD_TAP, LOW_TAP) }]);
    const report = await client.request<Report>('textDocument/diagnostic', { textDocument });
    expect(codes(report.items)).toContain('tap.below-window');
  });
});

describe('requests about nothing', () => {
  it('are answered with null', async () => {
    const site = makeSite();
    const client = await startClient(site);
    await openFile(client, site, WELL);
    const wrong = [
      { line: 9999, character: 0 },
      { line: -1, character: 0 },
      { line: 0, character: -5 },
    ];
    for (const method of ['hover', 'definition', 'completion', 'references']) {
      for (const position of wrong) {
        const params = { textDocument: { uri: site.uri(WELL) }, position, context: {} };
        expect(await client.request(`textDocument/${method}`, params), method).toBeNull();
      }
      const params = {
        textDocument: { uri: 'file:///nowhere.yaml' },
        position: { line: 0, character: 0 },
        context: {},
      };
      expect(await client.request(`textDocument/${method}`, params), method).toBeNull();
    }
  });
});

describe('a virtual workspace', () => {
  it('is read through the client', async () => {
    const site = makeSite();
    const root = 'virtual://store/site';
    const client = new LspClient(new StdioTransport());
    const asked: string[] = [];
    client.answer('setproof/read', ({ uris }: { uris: string[] }) => ({
      files: uris.map((uri) => {
        const file = uri.slice(root.length + 1);
        asked.push(file);
        return file.endsWith('.yaml') && file !== 'wells/setproof.policy.yaml' && !file.startsWith('equipment/setproof')
          ? { text: site.read(file) }
          : { absent: true };
      }),
    }));
    client.answer('setproof/find', () => ({ uris: [] }));
    await client.initialize({
      workspaceFolders: [{ uri: root, name: 'site' }],
      initializationOptions: { servesFiles: true },
    });
    client.open(`${root}/${WELL}`, site.read(WELL).replace(GOOD_TAP, LOW_TAP));
    const { diagnostics } = await client.publication(`${root}/${WELL}`);
    expect(codes(diagnostics)).toContain('tap.below-window');
    expect(codes(diagnostics)).not.toContain('reference.not-found');
    expect(asked).toContain(TRANSFORMER);
    client.transport.stop();
  });
});
