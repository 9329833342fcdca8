/** Chance that can be had again: the same seed gives the same numbers (a linear congruence over 2^32). */
export class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** A whole number from zero up to, not including, `below`. */
  under(below: number): number {
    this.#state = (Math.imul(this.#state, 1664525) + 1013904223) >>> 0;
    // The high bits of a congruence are the random ones.
    return Math.floor((this.#state / 2 ** 32) * below);
  }

  one<T>(list: readonly T[]): T {
    return list[this.under(list.length)] as T;
  }
}
