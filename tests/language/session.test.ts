// A whole editing session over standard input and output, as a plain editor has it that knows nothing of Setproof.
import { renameSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  applied,
  type Diagnostic,
  LspClient,
  PULLED,
  PUSHED,
  positionBehind,
  StdioTransport,
  type TextEdit,
} from './client.ts';
import { GOOD_TAP, makeSite, type Site, WELL } from './site.ts';

const OTHER = 'wells/b1-01.yaml';
const MOTOR = 'equipment/motor.yaml';
const CHANGED = 2;
const CREATED = 1;
const DELETED = 3;
const RENAMES = { workspaceEdit: { documentChanges: true, resourceOperations: ['rename'] } };
const CLIENTS = {
  'that gets its findings pushed': { ...PUSHED, workspace: RENAMES },
  'that asks for its findings': { ...PULLED, workspace: { ...PULLED.workspace, ...RENAMES } },
};

interface Item {
  readonly label: string;
  readonly insertTextFormat?: number;
  readonly textEdit: TextEdit;
}
interface Action {
  readonly title: string;
  readonly edit: { readonly changes: Record<string, TextEdit[]> };
}
type DocumentChange =
  | { readonly kind: 'rename'; readonly oldUri: string; readonly newUri: string }
  | { readonly textDocument: { readonly uri: string }; readonly edits: readonly TextEdit[] };

/** One open document as an editor keeps it: every change goes to the server as it is typed. */
class OpenText {
  readonly #client: LspClient;
  readonly #uri: string;
  readonly #pulls: boolean;
  #version = 1;
  text: string;

  constructor(client: LspClient, uri: string, text: string, pulls: boolean) {
    this.#client = client;
    this.#uri = uri;
    this.#pulls = pulls;
    this.text = text;
    client.open(uri, text);
  }

  get id() {
    return { textDocument: { uri: this.#uri } };
  }

  /** Takes the text out in front of a place, then types another in, letter by letter. */
  type(part: string, removed: string, typed: string): void {
    const end = positionBehind(this.text, part + removed);
    this.edit([{ range: { start: { ...end, character: end.character - removed.length }, end }, newText: '' }]);
    for (const [at, letter] of [...typed].entries()) {
      const here = positionBehind(this.text, part + typed.slice(0, at));
      this.edit([{ range: { start: here, end: here }, newText: letter }]);
    }
  }

  edit(edits: readonly TextEdit[]): void {
    this.text = applied(this.text, edits);
    const last = [...edits].sort(
      (a, b) => b.range.start.line - a.range.start.line || b.range.start.character - a.range.start.character,
    );
    const contentChanges = last.map(({ range, newText }) => ({ range, text: newText }));
    this.#client.change(this.#uri, ++this.#version, contentChanges);
  }

  /** The findings of the text as it stands. */
  async findings(): Promise<readonly Diagnostic[]> {
    if (this.#pulls) {
      const report = await this.#client.request<{ items: Diagnostic[] }>('textDocument/diagnostic', this.id);
      return report.items;
    }
    return (await this.#client.publication(this.#uri, ({ version }) => version === this.#version)).diagnostics;
  }

  at(part: string) {
    return { ...this.id, position: positionBehind(this.text, part) };
  }
}

async function begin(site: Site, capabilities: object) {
  const transport = new StdioTransport();
  const client = new LspClient(transport);
  await client.initialize({ capabilities, workspaceFolders: [{ uri: site.uri(''), name: 'site' }] });
  return { transport, client };
}

function codes(findings: readonly Diagnostic[]): readonly string[] {
  return findings.map(({ code }) => code);
}

describe.each(Object.entries(CLIENTS))('an editor %s', (name, capabilities) => {
  const pulls = name.includes('asks');

  it('opens, types, completes, reads, mends, renames and closes', async () => {
    const site = makeSite();
    site.write(OTHER, site.read(WELL).replace('well: A2-07', 'well: B1-01'));
    const { transport, client } = await begin(site, capabilities);
    expect(client.initialized.capabilities).not.toHaveProperty('codeLensProvider');
    const well = new OpenText(client, site.uri(WELL), site.read(WELL), pulls);
    expect(codes(await well.findings())).not.toContain('tap.below-window');

    well.type('transformer: { tap: ', '2', '1');
    well.type('tap: 1, voltage: ', '900', '600');
    const low = (await well.findings()).find(({ code }) => code === 'tap.below-window') as Diagnostic;
    expect(low.range.end).toEqual(positionBehind(well.text, '{ tap: 1'));

    const { items } = await client.request<{ items: Item[] }>('textDocument/completion', well.at('{ tap: 1'));
    expect(items.map(({ label }) => label)).toEqual(expect.arrayContaining(['1', '2', '6']));
    expect(items.every(({ insertTextFormat }) => insertTextFormat === undefined)).toBe(true);
    const hover = await client.request<{ contents: { value: string } }>('textDocument/hover', well.at('{ tap: 1'));
    expect(hover.contents.value).toContain('the least tap voltage that serves');

    const { start, end } = low.range;
    const context = { diagnostics: [low] };
    const actions = await client.request<Action[]>('textDocument/codeAction', {
      ...well.id,
      range: { start, end },
      context,
    });
    well.edit(actions[0]?.edit.changes[site.uri(WELL)] ?? []);
    expect(well.text).toContain(GOOD_TAP);
    expect(codes(await well.findings())).not.toContain('tap.below-window');

    const line = { start: { line: start.line, character: 0 }, end: { line: start.line, character: 99 } };
    const hints = await client.request<{ label: string }[]>('textDocument/inlayHint', { ...well.id, range: line });
    expect(hints.map(({ label }) => label)).toEqual([expect.stringContaining('surface 137 to 240 V')]);

    await rename(client, site, well);
    expect(codes(await well.findings())).not.toContain('reference.not-found');
    expect(site.read(OTHER)).toContain('motor: { datasheet: ../equipment/lm.yaml }');

    client.notify('textDocument/didClose', well.id);
    // The text on disk has never been saved, and still names the old file.
    if (!pulls) {
      await client.publication(
        site.uri(WELL),
        ({ version, diagnostics }) => version === undefined && codes(diagnostics).includes('reference.not-found'),
      );
    }
    expect(await client.request('textDocument/hover', well.at('{ tap: 2'))).toBeNull();
    await client.shutdown();
    expect(await transport.exited).toBe(0);
    if (pulls) expect(client.publications).toEqual([]);
  });
});

/** Renames the motor's data sheet, and does what is asked for it as an editor does. */
async function rename(client: LspClient, site: Site, well: OpenText): Promise<void> {
  const place = well.at('motor: { datasheet: ../equip');
  const params = { ...place, newName: '../equipment/lm.yaml' };
  const { documentChanges } = await client.request<{ documentChanges: DocumentChange[] }>(
    'textDocument/rename',
    params,
  );
  const changes: { uri: string; type: number }[] = [];
  for (const change of documentChanges) {
    if ('kind' in change) {
      renameSync(fileURLToPath(change.oldUri), fileURLToPath(change.newUri));
      changes.push({ uri: change.oldUri, type: DELETED }, { uri: change.newUri, type: CREATED });
    } else if (change.textDocument.uri === site.uri(WELL)) well.edit(change.edits);
    else {
      site.write(OTHER, applied(site.read(OTHER), change.edits));
      changes.push({ uri: change.textDocument.uri, type: CHANGED });
    }
  }
  client.notify('workspace/didChangeWatchedFiles', { changes });
  expect(changes.map(({ uri }) => uri)).toContain(site.uri(MOTOR));
}

describe('a request that is withdrawn', () => {
  it('is answered as such', async () => {
    const site = makeSite();
    const { client } = await begin(site, PUSHED);
    const well = new OpenText(client, site.uri(WELL), site.read(WELL), false);
    const withdrawn = client.withdrawn('textDocument/hover', well.at('{ tap: 2'));
    await expect(withdrawn).rejects.toThrow();
    expect(await client.request('textDocument/hover', well.at('{ tap: 2'))).not.toBeNull();
    client.transport.stop();
  });
});

describe('a large workspace', () => {
  interface Progress {
    readonly token: string;
    readonly value: { readonly kind: string; readonly cancellable?: boolean; readonly percentage?: number };
  }
  const ABLE = { ...PUSHED, window: { workDoneProgress: true } };

  async function beginLarge(count: number) {
    const site = makeSite();
    const small = 'document: installation/1\nlift: linear\n';
    for (let at = 0; at < count; at++) site.write(`many/w-${at}.yaml`, `${small}site: { well: W-${at} }\n`);
    const transport = new StdioTransport();
    const client = new LspClient(transport);
    client.answer('window/workDoneProgress/create', () => null);
    return { site, client };
  }

  it('is looked at in sight of its user', async () => {
    const { site, client } = await beginLarge(100);
    await client.initialize({ capabilities: ABLE, workspaceFolders: [{ uri: site.uri(''), name: 'site' }] });
    const begun = await client.message<Progress>('$/progress', ({ value }) => value.kind === 'begin');
    expect(begun.value.cancellable).toBe(true);
    await client.message<Progress>('$/progress', ({ token, value }) => value.kind === 'end' && token === begun.token);
    await client.publication(site.uri('many/w-99.yaml'));
    client.transport.stop();
  });

  it('is left when its user says so, who is told what was not looked at', async () => {
    const { site, client } = await beginLarge(2000);
    await client.initialize({ capabilities: ABLE, workspaceFolders: [{ uri: site.uri(''), name: 'site' }] });
    const { token } = await client.message<Progress>('$/progress', ({ value }) => value.kind === 'begin');
    client.notify('window/workDoneProgress/cancel', { token });
    const told = await client.message<{ message: string }>('window/showMessage');
    expect(told.message).toMatch(/^Setproof was stopped with \d+ of the closed documents not checked/);
    // What somebody opens is checked all the same.
    client.open(site.uri(WELL), site.read(WELL));
    await client.publication(site.uri(WELL), ({ version }) => version === 1);
    client.transport.stop();
  });

  it('is looked at in silence where a client shows no progress', async () => {
    const { site, client } = await beginLarge(100);
    await client.initialize({ capabilities: PUSHED, workspaceFolders: [{ uri: site.uri(''), name: 'site' }] });
    await client.publication(site.uri('many/w-99.yaml'));
    expect(client.received.filter(({ method }) => method?.includes('rogress'))).toEqual([]);
    client.transport.stop();
  });
});
