import { counted } from '../render/text/lines.ts';
import type { Sink } from './surroundings.ts';

const PATIENCE = 1000;
const PAUSE = 100;

/** Shows on a terminal how far a run has come, once it takes longer than a second. */
export class Progress {
  readonly #total: number;
  readonly #sink: Sink;
  #done = 0;
  #next = performance.now() + PATIENCE;
  #shown = false;

  constructor(total: number, sink: Sink) {
    this.#total = total;
    this.#sink = sink;
  }

  step(): void {
    this.#done++;
    if (this.#sink.isTTY !== true || performance.now() < this.#next) return;
    this.#next = performance.now() + PAUSE;
    this.#shown = true;
    this.#sink.write(`\r${this.#done} of ${counted(this.#total, 'file')} checked`);
  }

  end(): void {
    if (this.#shown) this.#sink.write('\r\u001b[K');
  }
}
