import { counted } from '../render/text/lines.ts';
import type { Sink } from './surroundings.ts';

const PATIENCE = 1000;
const PAUSE = 100;

/** Shows on a terminal how far a run has come, once it takes longer than a second. */
export class Progress {
  readonly #sink: Sink;
  #deed = '';
  #total = 0;
  #done = 0;
  #next = Date.now() + PATIENCE;
  #shown = false;

  constructor(sink: Sink) {
    this.#sink = sink;
  }

  /** Begins a part of the run. @param deed what is done to each file, such as `checked` */
  begin(deed: string, total: number): void {
    this.#deed = deed;
    this.#total = total;
    this.#done = 0;
  }

  step(files: number): void {
    this.#done += files;
    if (this.#sink.isTTY !== true || Date.now() < this.#next) return;
    this.#next = Date.now() + PAUSE;
    this.#shown = true;
    this.#sink.write(`\r\u001b[K${this.#done} of ${counted(this.#total, 'file')} ${this.#deed}`);
  }

  /** Takes the line away, so that something else can be written. */
  clear(): void {
    if (this.#shown) this.#sink.write('\r\u001b[K');
    this.#shown = false;
  }
}
