// A small client of the Language Server Protocol, so that tests depend on no library that the server uses itself.
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { createContext, Script } from 'node:vm';

const DIST = new URL('../../dist/', import.meta.url);
const PATIENCE = 15_000;

export interface Position {
  readonly line: number;
  readonly character: number;
}
export interface Range {
  readonly start: Position;
  readonly end: Position;
}
export interface TextEdit {
  readonly range: Range;
  readonly newText: string;
}
export interface Diagnostic {
  readonly range: Range;
  readonly severity: number;
  readonly code: string;
  readonly message: string;
  readonly tags?: readonly number[];
  readonly codeDescription?: { readonly href: string };
  readonly relatedInformation?: readonly {
    readonly location: { uri: string; range: Range };
    readonly message: string;
  }[];
}
export interface Publication {
  readonly uri: string;
  readonly version?: number;
  readonly diagnostics: readonly Diagnostic[];
}

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

/** Carries messages to a server and back. */
interface Transport {
  send(message: object): void;
  receive(handler: (message: Message) => void): void;
  stop(): void;
}

/** The server as a process of its own that talks over standard input and output. */
export class StdioTransport implements Transport {
  readonly process: ChildProcess;
  readonly exited: Promise<number | null>;

  constructor(args: readonly string[] = ['--stdio'], program = fileURLToPath(new URL('language-server.js', DIST))) {
    this.process = spawn(process.execPath, [program, ...args], {
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    // A server that was stopped reads no more, also not the answers to what it had asked.
    this.process.stdin?.on('error', () => undefined);
    this.exited = new Promise((resolve) => this.process.on('exit', resolve));
  }

  send(message: object): void {
    const body = JSON.stringify(message);
    this.process.stdin?.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  receive(handler: (message: Message) => void): void {
    let buffer = Buffer.alloc(0);
    this.process.stdout?.on('data', (chunk: Buffer) => {
      buffer = Buffer.concat([buffer, chunk]);
      for (;;) {
        const head = buffer.indexOf('\r\n\r\n');
        if (head < 0) return;
        const length = Number(/Content-Length: (\d+)/i.exec(buffer.toString('ascii', 0, head))?.[1]);
        if (buffer.length < head + 4 + length) return;
        const body = buffer.toString('utf8', head + 4, head + 4 + length);
        buffer = buffer.subarray(head + 4 + length);
        handler(JSON.parse(body));
      }
    });
  }

  stop(): void {
    this.process.kill();
  }
}

interface Scope {
  onmessage?: (event: { data: unknown }) => void;
}

/** The worker's bundle in a context that has what a browser's worker has, and nothing of Node. */
export class WorkerTransport implements Transport {
  readonly #scope: Scope;
  #handler: (message: Message) => void = () => undefined;

  constructor() {
    const postMessage = (message: Message) => this.#handler(structuredClone(message));
    const addEventListener = () => undefined;
    const scope = {
      postMessage,
      addEventListener,
      console,
      setTimeout,
      clearTimeout,
      setInterval,
      clearInterval,
      TextDecoder,
      TextEncoder,
      URL,
    };
    this.#scope = Object.assign(scope, { self: scope }) as Scope;
    createContext(this.#scope);
    new Script(readFileSync(new URL('language-worker.js', DIST), 'utf8')).runInContext(this.#scope);
  }

  send(message: object): void {
    const data = structuredClone(message);
    setImmediate(() => this.#scope.onmessage?.({ data }));
  }

  receive(handler: (message: Message) => void): void {
    this.#handler = handler;
  }

  stop(): void {
    this.#handler = () => undefined;
  }
}

type Answer = (params: never) => unknown;

interface Announcement {
  readonly capabilities: Record<string, unknown>;
}

/** One session with a server. */
export class LspClient {
  readonly transport: Transport;
  readonly publications: Publication[] = [];
  readonly received: Message[] = [];
  readonly #waiting = new Map<number, { resolve: (result: unknown) => void; reject: (error: Error) => void }>();
  readonly #answers = new Map<string, Answer>();
  readonly #watchers = new Set<() => void>();
  #initialized: Announcement | undefined;
  #nextId = 1;

  constructor(transport: Transport) {
    this.transport = transport;
    this.answer('client/registerCapability', () => null);
    this.answer('workspace/diagnostic/refresh', () => null);
    transport.receive((message) => this.#handle(message));
  }

  /** How a request of the server is answered. */
  answer(method: string, answer: Answer): void {
    this.#answers.set(method, answer);
  }

  request<T>(method: string, params: unknown): Promise<T> {
    const id = this.#nextId++;
    const answered = new Promise<unknown>((resolve, reject) => this.#waiting.set(id, { resolve, reject }));
    this.transport.send({ jsonrpc: '2.0', id, method, params });
    return withPatience(answered, method) as Promise<T>;
  }

  /** A request that is withdrawn at once. */
  withdrawn(method: string, params: unknown): Promise<unknown> {
    const id = this.#nextId;
    const answered = this.request(method, params);
    this.notify('$/cancelRequest', { id });
    return answered;
  }

  /** The first message of a kind that fits, be it here already or still to come. */
  async message<T>(method: string, fits: (params: T) => boolean = () => true): Promise<T> {
    const find = () => this.received.find((each) => each.method === method && fits(each.params as T));
    return (await this.#whenThere(find, method)).params as T;
  }

  notify(method: string, params: unknown): void {
    this.transport.send({ jsonrpc: '2.0', method, params });
  }

  /** What the server said that it can do. */
  get initialized(): Announcement {
    if (this.#initialized === undefined) throw new Error('the session has not begun');
    return this.#initialized;
  }

  async initialize(options: Record<string, unknown> = {}): Promise<Announcement> {
    this.#initialized = await this.request<Announcement>('initialize', {
      processId: null,
      rootUri: null,
      capabilities: PUSHED,
      ...options,
    });
    this.notify('initialized', {});
    return this.#initialized;
  }

  open(uri: string, text: string, version = 1): void {
    this.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'yaml', version, text } });
  }

  change(uri: string, version: number, contentChanges: readonly { range?: Range; text: string }[]): void {
    this.notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
  }

  /** The first publication that fits, be it here already or still to come. */
  publication(uri: string, fits: (publication: Publication) => boolean = () => true): Promise<Publication> {
    return this.#whenThere(
      () => this.publications.find((each) => each.uri === uri && fits(each)),
      `a publication for ${uri}`,
    );
  }

  #whenThere<T>(find: () => T | undefined, what: string): Promise<T> {
    return withPatience(
      new Promise((resolve) => {
        const look = () => {
          const found = find();
          if (found === undefined) return;
          this.#watchers.delete(look);
          resolve(found);
        };
        this.#watchers.add(look);
        look();
      }),
      what,
    );
  }

  async shutdown(): Promise<void> {
    await this.request('shutdown', undefined);
    this.notify('exit', undefined);
  }

  #handle(message: Message): void {
    this.received.push(message);
    if (message.method === undefined) this.#settle(message);
    else if (message.id !== undefined) void this.#answer(message);
    else if (message.method === 'textDocument/publishDiagnostics')
      this.publications.push(message.params as Publication);
    for (const look of [...this.#watchers]) look();
  }

  #settle({ id = 0, error, result }: Message): void {
    const waiting = this.#waiting.get(id);
    this.#waiting.delete(id);
    if (error === undefined) waiting?.resolve(result ?? null);
    else waiting?.reject(new Error(error.message));
  }

  async #answer({ id, method = '', params }: Message): Promise<void> {
    const answer = this.#answers.get(method);
    if (answer === undefined) this.transport.send({ jsonrpc: '2.0', id, error: { code: -32601, message: method } });
    else this.transport.send({ jsonrpc: '2.0', id, result: await answer(params as never) });
  }
}

/** A client that gets its diagnostics pushed, and one that asks for them. */
export const PUSHED = { textDocument: { publishDiagnostics: { relatedInformation: true, versionSupport: true } } };
export const PULLED = {
  textDocument: { ...PUSHED.textDocument, diagnostic: { dynamicRegistration: false } },
  workspace: { diagnostics: { refreshSupport: true } },
};

export function uriOf(path: string): string {
  return pathToFileURL(path).href;
}

/** A text with edits applied, as an editor does it. */
export function applied(text: string, edits: readonly TextEdit[]): string {
  const offset = ({ line, character }: Position) =>
    text
      .split('\n')
      .slice(0, line)
      .reduce((sum, each) => sum + each.length + 1, 0) + character;
  const ordered = [...edits].sort((a, b) => offset(b.range.start) - offset(a.range.start));
  return ordered.reduce(
    (now, { range, newText }) => now.slice(0, offset(range.start)) + newText + now.slice(offset(range.end)),
    text,
  );
}

/** Position of a mark `|` behind a text in a document: `positionOf(text, 'tap: 6')` is right behind the 6. */
export function positionBehind(text: string, part: string): Position {
  const at = text.indexOf(part);
  if (at < 0) throw new Error(`the text has no '${part}'`);
  const before = text.slice(0, at + part.length).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

function withPatience<T>(promise: Promise<T>, what: string): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`waited in vain for ${what}`)), PATIENCE);
  });
  return Promise.race([promise, tooLate]).finally(() => clearTimeout(timer));
}
