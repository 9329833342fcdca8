/** A motor, its cable and its transformer as one phase of a circuit, in nameplate terms; built without the engine. */
export interface Circuit {
  readonly frequency: number;
  readonly current: number;
  /** Emf per phase in phase with the current, V; for a machine by its impedance 0. */
  readonly emf: number;
  /** Series elements per phase: ohm and H. */
  readonly winding: { readonly resistance: number; readonly inductance: number };
  readonly cable: { readonly resistance: number; readonly inductance: number };
  readonly transformer: { readonly resistance: number; readonly inductance: number };
}

/** The same as a netlist: the load's current driven through the chain, so that the node voltages are those needed. */
export function netlistOf({ current, emf, winding, cable, transformer }: Circuit): string[] {
  return [
    `I1 0 emf DC 0 AC ${current} 0`,
    ...series('emf', 'surface', 't', transformer),
    ...series('surface', 'motor', 'c', cable),
    ...series('motor', 'back', 'w', winding),
    `V1 back 0 DC 0 AC ${emf} 0`,
  ];
}

function series(from: string, to: string, name: string, part: { resistance: number; inductance: number }): string[] {
  return [`R${name} ${from} ${name}x ${part.resistance}`, `L${name} ${name}x ${to} ${part.inductance}`];
}
