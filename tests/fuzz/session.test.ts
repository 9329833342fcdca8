import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LspClient, Position } from '../language/client.ts';
import { makeSite, type Site, startClient, TRANSFORMER, WELL } from '../language/site.ts';
import { Chance } from './random.ts';
import { spoilt } from './spoil.ts';

/** Messages of a session; a night's run takes ten thousand. */
const MESSAGES = Number(process.env.SETPROOF_FUZZ_MESSAGES ?? 1000);
const SEED = Number(process.env.SETPROOF_FUZZ_SEED ?? 2026);
const NEW = 'wells/new.yaml';
const FILES = [WELL, TRANSFORMER, NEW];
const REQUESTS = [
  ...['hover', 'completion', 'definition', 'references', 'codeAction', 'documentSymbol', 'foldingRange'],
  ...['inlayHint', 'codeLens', 'prepareRename', 'selectionRange', 'documentLink', 'diagnostic'],
];

/** An author gone mad: edits, closes what is not open, asks at places that are none, takes questions back. */
class MadAuthor {
  readonly #client: LspClient;
  readonly #site: Site;
  readonly #chance: Chance;
  readonly #texts = new Map<string, string>();
  readonly #asked: Promise<unknown>[] = [];
  #version = 1;
  #nextId = 1_000_000;

  readonly #acts = [
    { needsOpen: false, on: (file: string) => this.#open(file) },
    { needsOpen: false, on: (file: string) => this.#close(file) },
    { needsOpen: false, on: (file: string) => this.#touch(file) },
    { needsOpen: false, on: (file: string) => this.#askAndCancel(file) },
    ...Array(3).fill({ needsOpen: true, on: (file: string) => this.#replaceAll(file) }),
    ...Array(3).fill({ needsOpen: true, on: (file: string) => this.#type(file) }),
    ...Array(3).fill({ needsOpen: false, on: (file: string) => this.#ask(file) }),
  ];

  constructor(client: LspClient, site: Site, chance: Chance) {
    this.#client = client;
    this.#site = site;
    this.#chance = chance;
  }

  act(): void {
    const file = this.#chance.one(FILES);
    const act = this.#chance.one(this.#acts);
    if (act.needsOpen && !this.#texts.has(file)) this.#open(file);
    else act.on(file);
  }

  /** Brings a file to a text, whatever became of it. */
  settle(file: string, text: string): number {
    if (!this.#texts.has(file)) this.#open(file);
    this.#client.change(this.#site.uri(file), ++this.#version, [{ text }]);
    return this.#version;
  }

  answered(): Promise<unknown> {
    return Promise.all(this.#asked);
  }

  #open(file: string): void {
    const text = this.#spoilt(file);
    this.#texts.set(file, text);
    this.#client.open(this.#site.uri(file), text, ++this.#version);
  }

  #close(file: string): void {
    this.#texts.delete(file);
    this.#client.notify('textDocument/didClose', { textDocument: { uri: this.#site.uri(file) } });
  }

  #touch(file: string): void {
    const changes = [{ uri: this.#site.uri(file), type: 1 + this.#chance.under(3) }];
    this.#client.notify('workspace/didChangeWatchedFiles', { changes });
  }

  #replaceAll(file: string): void {
    const text = this.#spoilt(file);
    this.#texts.set(file, text);
    this.#client.change(this.#site.uri(file), ++this.#version, [{ text }]);
  }

  /** Types at a place that may lie anywhere; the server and we may differ in the text from then on, as after a bad client. */
  #type(file: string): void {
    const range = { start: this.#place(), end: this.#place() };
    this.#client.change(this.#site.uri(file), ++this.#version, [
      { range, text: this.#chance.one(['', 'x', '\n', ': ', '{']) },
    ]);
  }

  #ask(file: string): void {
    const method = `textDocument/${this.#chance.one(REQUESTS)}`;
    // An error is an answer too; silence is not.
    this.#asked.push(this.#client.request(method, this.#params(file)).catch((error: Error) => expectAnswer(error)));
  }

  #askAndCancel(file: string): void {
    const id = this.#nextId++;
    const method = `textDocument/${this.#chance.one(REQUESTS)}`;
    this.#client.transport.send({ jsonrpc: '2.0', id, method, params: this.#params(file) });
    this.#client.notify('$/cancelRequest', { id });
  }

  #params(file: string) {
    const range = { start: this.#place(), end: this.#place() };
    return {
      textDocument: { uri: this.#chance.under(20) === 0 ? 'untitled:none' : this.#site.uri(file) },
      position: range.start,
      positions: [range.start],
      range,
      context: { diagnostics: [], includeDeclaration: true },
    };
  }

  #place(): Position {
    return { line: this.#chance.under(120) - 2, character: this.#chance.under(100) - 2 };
  }

  #spoilt(file: string): string {
    const text = file === NEW ? 'document: installation/1\nsite: { well: N-1 }\n' : this.#site.read(file);
    return this.#chance.under(3) === 0 ? text : spoilt(text, this.#chance, [text]);
  }
}

function expectAnswer(error: Error): void {
  if (error.message.includes('waited')) throw error;
}

describe(`a session of ${MESSAGES} messages in no order`, () => {
  it('leaves the server alive and right', async () => {
    const site = makeSite();
    const client = await startClient(site);
    const author = new MadAuthor(client, site, new Chance(SEED));
    for (let message = 0; message < MESSAGES; message++) {
      author.act();
      // A breath now and then, so that what was asked is not all taken in at once.
      if (message % 25 === 0) await author.answered();
    }
    await author.answered();
    author.settle(NEW, 'no document of ours');
    author.settle(TRANSFORMER, site.read(TRANSFORMER));
    const last = author.settle(WELL, site.read(WELL));
    const { diagnostics } = await client.publication(site.uri(WELL), ({ version }) => version === last);
    expect(diagnostics.map(({ code, message, range }) => ({ code, message, range }))).toEqual(await fresh(WELL));
    await client.shutdown();
  }, 600_000);
});

/** What a server says that never saw anything else. */
async function fresh(file: string): Promise<readonly unknown[]> {
  const site = makeSite();
  const client = await startClient(site);
  client.open(site.uri(file), readFileSync(site.path(file), 'utf8'));
  const { diagnostics } = await client.publication(site.uri(file));
  await client.shutdown();
  return diagnostics.map(({ code, message, range }) => ({ code, message, range }));
}
