import type { Connection, WorkDoneProgressServerReporter } from 'vscode-languageserver';

/** Long work in sight of the user, who may stop it. A client that is slow to show it, or cannot, holds nothing up. */
export class Progress {
  readonly #title: string;
  #shown: WorkDoneProgressServerReporter | undefined;
  #isDone = false;

  constructor(connection: Connection, title: string) {
    this.#title = title;
    connection.window.createWorkDoneProgress().then(
      (reporter) => this.#show(reporter),
      // A client that refuses wants to see nothing.
      () => undefined,
    );
  }

  get isStopped(): boolean {
    return this.#shown?.token.isCancellationRequested ?? false;
  }

  /** @param share of the work that is done, 0 to 1 */
  report(share: number, message: string): void {
    this.#shown?.report(Math.round(100 * Math.min(1, Math.max(0, share))), message);
  }

  done(): void {
    this.#isDone = true;
    this.#shown?.done();
  }

  #show(reporter: WorkDoneProgressServerReporter): void {
    reporter.begin(this.#title, 0, undefined, true);
    this.#shown = reporter;
    if (this.#isDone) reporter.done();
  }
}
