import {
  declareValue,
  entry,
  type Input,
  isPresent,
  type Outcome,
  optionalEntry,
  optionalRows,
  type ValueDeclaration,
  value,
} from '../declare.ts';

/** What comes to the site and is lifted in one piece, by its key under `equipment`; the cable on its reels beside them. */
const PIECES = ['pump', 'motor', 'gauge', 'cable.motor_lead', 'transformer', 'drive'] as const;

const MASSES: Readonly<Record<string, Input<number | undefined>>> = Object.fromEntries(
  PIECES.map((name) => [name, optionalEntry(`equipment.${name}.mass`)]),
);
const ENTERED: Readonly<Record<string, Input<boolean>>> = Object.fromEntries(
  PIECES.map((name) => [`is ${name}`, isPresent(`equipment.${name}`)]),
);

/** The heaviest piece; no number while one that is there has no mass. */
function heaviest(pieces: readonly { readonly name: string; readonly mass: number | undefined }[]): Outcome {
  let found: Outcome = { number: Number.NaN };
  for (const { name, mass } of pieces) {
    if (mass === undefined) return { number: Number.NaN };
    if (!(mass <= found.number)) found = { number: mass, binding: name };
  }
  return found;
}

export const HANDLING: readonly ValueDeclaration[] = [
  declareValue({
    id: 'handling.lift_mass',
    title: 'mass of the heaviest single lift',
    kind: 'mass',
    formula: 'max of pump, motor, gauge, motor lead, cable reels, transformer and drive',
    source: 'each is lifted in one piece; what already hangs in the well is on the elevators',
    inputs: { ...MASSES, ...ENTERED, reels: optionalRows('equipment.cable.main', { mass: 'number?' }) },
    without: 'a piece of equipment has no mass on its data sheet',
    compute: (seen) => {
      const known: Readonly<Record<string, unknown>> = seen;
      const pieces = PIECES.filter((name) => known[`is ${name}`] === true);
      const reels = (seen.reels as readonly { readonly mass: number | undefined }[] | undefined) ?? [];
      return heaviest([
        ...pieces.map((name) => ({ name, mass: known[name] as number | undefined })),
        ...reels.map(({ mass }) => ({ name: 'cable reel', mass })),
      ]);
    },
  }),
  declareValue({
    id: 'handling.sling_margin',
    title: 'rated load of the sling over the heaviest lift',
    kind: 'plain',
    formula: 'rated load/heaviest lift',
    source: 'definition',
    inputs: { rated: entry('equipment.handling.sling.rated_load'), mass: value('handling.lift_mass') },
    compute: ({ rated, mass }) => rated / mass,
  }),
];
