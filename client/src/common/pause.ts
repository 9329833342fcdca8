import { Disposable } from 'vscode';

/** Does something once when nothing called for it any more for a while; a burst of calls costs one run. */
export class AfterPause extends Disposable {
  readonly #run: () => unknown;
  readonly #pause: number;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** @param pause ms */
  constructor(pause: number, run: () => unknown) {
    super(() => clearTimeout(this.#timer));
    this.#run = run;
    this.#pause = pause;
  }

  call(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(this.#run, this.#pause);
  }
}
