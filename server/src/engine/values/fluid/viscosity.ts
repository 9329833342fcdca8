import { entry, entryOr, method, type ValueDeclaration, value, valueBy } from '../declare.ts';

const VISCOSITY = 'fluid.viscosity';

export const VISCOSITIES: readonly ValueDeclaration[] = [
  valueBy('fluid.dynamic_viscosity', 'dynamic viscosity of the liquid', 'viscosity', [
    method({
      when: [{ path: VISCOSITY, alternate: true }],
      formula: 'kinematic viscosity × ρ',
      source: 'definition',
      inputs: { kinematic: entry(VISCOSITY), density: value('fluid.liquid_density') },
      compute: ({ kinematic, density }) => kinematic * density,
    }),
    method({
      formula: 'as entered',
      source: 'the entry itself',
      inputs: {
        dynamic: entryOr(VISCOSITY, 0.01, '10 cP, the thick side of a light crude (common practice, no source)'),
      },
      compute: ({ dynamic }) => dynamic,
    }),
  ]),
];
