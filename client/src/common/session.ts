import { type Disposable, EventEmitter, type LogOutputChannel } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

/** The one client of this window, and whether it runs. */
export class Session implements Disposable {
  readonly #make: () => BaseLanguageClient;
  readonly #output: LogOutputChannel;
  readonly #services: ((client: BaseLanguageClient) => void)[] = [];
  readonly #started = new EventEmitter<void>();
  #client: BaseLanguageClient | undefined;
  #starting: Promise<void> = Promise.resolve();

  /** A server runs, for the first time or anew: what was shown of another may be out of date. */
  readonly onDidStart = this.#started.event;

  constructor(make: () => BaseLanguageClient, output: LogOutputChannel) {
    this.#make = make;
    this.#output = output;
  }

  async start(): Promise<void> {
    if (this.#client !== undefined) return;
    const client = this.#make();
    this.#client = client;
    for (const serve of this.#services) serve(client);
    this.#starting = client.start();
    await this.#starting;
    this.#output.info('The language server runs.');
    this.#started.fire();
  }

  /** Also brings back a server that the client gave up on. */
  async restart(): Promise<void> {
    await this.#stop();
    await this.start();
  }

  /** Asks the server; undefined if there is none, or none that could answer. */
  async ask<Result>(method: string, params: object): Promise<Result | undefined> {
    if (this.#client === undefined) return undefined;
    const client = this.#client;
    return this.#starting
      .then(() => client.sendRequest<Result | null>(method, params))
      .then(
        (result) => result ?? undefined,
        (reason: unknown) => {
          this.#output.warn(`${method} was not answered: ${reason instanceof Error ? reason.message : String(reason)}`);
          return undefined;
        },
      );
  }

  /** Answers what the server asks: this one, if it runs, and each that follows it. */
  serve(service: (client: BaseLanguageClient) => void): void {
    this.#services.push(service);
    if (this.#client !== undefined) service(this.#client);
  }

  async dispose(): Promise<void> {
    this.#started.dispose();
    await this.#stop();
  }

  async #stop(): Promise<void> {
    const client = this.#client;
    this.#client = undefined;
    // A server that is gone already cannot say goodbye, and need not.
    await client?.dispose().catch(() => undefined);
  }
}
