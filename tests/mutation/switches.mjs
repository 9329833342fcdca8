// What a text calls that was rewritten by `switched`: each expression comes out as written, but for the one switched on.

export class Switches {
  /** The number of the change that is on; none of them at -1. */
  on = -1;
  /** Which expressions have been come to since the last look: a change elsewhere cannot show. */
  reached;
  steps = 0;
  most = Number.POSITIVE_INFINITY;

  constructor(count) {
    this.reached = new Uint8Array(count);
  }

  /** A change may make a loop endless; that is noticed too. */
  limit(steps) {
    this.steps = 0;
    this.most = steps;
  }

  /** Runs what is not to be changed nor watched. */
  aside(run) {
    const { on, reached } = this;
    this.on = -1;
    this.reached = new Uint8Array(reached.length);
    try {
      return run();
    } finally {
      this.on = on;
      this.reached = reached;
    }
  }

  number(id, usual, changed) {
    return this.#isOn(id) ? changed : usual;
  }

  minus(id, a) {
    return this.#isOn(id) ? a : -a;
  }

  '+'(id, a, b) {
    return this.#isOn(id) ? a - b : a + b;
  }

  '-'(id, a, b) {
    return this.#isOn(id) ? a + b : a - b;
  }

  '*'(id, a, b) {
    return this.#isOn(id) ? a / b : a * b;
  }

  '/'(id, a, b) {
    return this.#isOn(id) ? a * b : a / b;
  }

  '<'(id, a, b) {
    return this.#isOn(id) ? a > b : a < b;
  }

  '>'(id, a, b) {
    return this.#isOn(id) ? a < b : a > b;
  }

  '<='(id, a, b) {
    return this.#isOn(id) ? a >= b : a <= b;
  }

  '>='(id, a, b) {
    return this.#isOn(id) ? a <= b : a >= b;
  }

  #isOn(id) {
    this.reached[id] = 1;
    this.steps++;
    if (this.steps > this.most) throw new Error('the change never comes to an end');
    return id === this.on;
  }
}
