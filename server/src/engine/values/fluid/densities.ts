import { declareValue, entry, inCase, method, type ValueDeclaration, value, valueBy } from '../declare.ts';

const MIXTURE = 'mixing by volume, gas-free liquid';

const MIXTURE_FORMULA = '(1 − WC)·ρ_o + WC·ρ_w';

function mixture({ waterCut, oil, water }: { waterCut: number; oil: number; water: number }): number {
  return (1 - waterCut) * oil + waterCut * water;
}

export const DENSITIES: readonly ValueDeclaration[] = [
  declareValue({
    id: 'fluid.oil_density',
    title: 'density of the oil at standard conditions',
    kind: 'density',
    formula: '141.5/(131.5 + API) × 999.016 kg/m3',
    source: 'API MPMS chapter 11 (from memory)',
    inputs: { oil: entry('fluid.oil_gravity') },
    compute: ({ oil }) => oil,
  }),
  declareValue({
    id: 'fluid.produced_density',
    title: 'density of the produced liquid',
    kind: 'density',
    formula: MIXTURE_FORMULA,
    source: MIXTURE,
    inputs: {
      waterCut: entry('fluid.water_cut'),
      oil: value('fluid.oil_density'),
      water: entry('fluid.water_density'),
    },
    compute: mixture,
  }),
  valueBy('fluid.liquid_density', 'density of the liquid of the case', 'density', [
    method({
      when: [{ caseKey: 'fluid_density', present: true }],
      formula: 'as entered in the case',
      source: 'the entry itself',
      inputs: { stated: inCase('fluid_density') },
      compute: ({ stated }) => stated,
    }),
    method({
      formula: MIXTURE_FORMULA,
      source: MIXTURE,
      inputs: {
        waterCut: entry('fluid.water_cut', 'water_cut'),
        oil: value('fluid.oil_density'),
        water: entry('fluid.water_density'),
      },
      compute: mixture,
    }),
  ]),
];
