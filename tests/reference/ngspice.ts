import { Simulation } from 'eecircuit-engine';

/** A complex voltage, V per phase. */
export interface Phasor {
  readonly real: number;
  readonly imaginary: number;
}

/** ngspice, compiled to WebAssembly, as an AC solver of small circuits. */
export class Spice {
  readonly #simulation = new Simulation();

  static async start(): Promise<Spice> {
    const spice = new Spice();
    await spice.#simulation.start();
    return spice;
  }

  /**
   * Node voltages of a netlist at one frequency.
   * @throws Error when ngspice complains: a bad netlist resolves quietly otherwise
   */
  async solve(netlist: readonly string[], frequency: number): Promise<ReadonlyMap<string, Phasor>> {
    this.#simulation.setNetList(
      ['setproof reference', ...netlist, `.ac lin 1 ${frequency} ${frequency}`, '.end'].join('\n'),
    );
    const result = await this.#simulation.runSim();
    const errors = this.#simulation.getError();
    if (errors.length > 0) throw new Error(`ngspice: ${errors.join(' ')}`);
    if (result.dataType !== 'complex') throw new Error('ngspice gave no AC result');
    return new Map(
      result.data.map(({ name, values }) => [
        name.toLowerCase(),
        { real: values[0]?.real ?? Number.NaN, imaginary: values[0]?.img ?? Number.NaN },
      ]),
    );
  }
}

/** Line-to-line magnitude of a phase voltage, V. */
export function lineVoltage(phase: Phasor | undefined): number {
  if (phase === undefined) throw new Error('ngspice gave no such node');
  return Math.sqrt(3) * Math.hypot(phase.real, phase.imaginary);
}
