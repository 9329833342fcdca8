import { absent, ROTARY } from '../conditions.ts';
import {
  declareValue,
  entry,
  type Method,
  method,
  optionalEntry,
  type Seen,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { apiOf, standingBubblePoint } from './black-oil.ts';
import { freeGasRatio, turpin } from './free-gas.ts';
import { gasVolumeFactor } from './gas.ts';
import { dissolvedGas, OIL_AT_INTAKE, oilVolume, SEPARATIONS } from './oil-model.ts';

const STANDING = 'Standing 1947';

const STREAM = {
  waterCut: entry('fluid.water_cut', 'water_cut'),
  gasOilRatio: entry('fluid.gas_oil_ratio'),
  solutionGas: value('fluid.solution_gas'),
  oilVolumeFactor: value('fluid.oil_volume_factor'),
  gasVolumeFactor: value('fluid.gas_volume_factor'),
  ...SEPARATIONS,
};

function freeGas(stream: Seen<typeof STREAM>) {
  return freeGasRatio({ ...stream, separations: [stream.naturalSeparation, stream.fittedSeparation] });
}

/** Where the gas is not described the liquid counts as free of it; what else is missing leaves no number. */
function liquidWithoutGas(undescribed: string): Method {
  return method({
    when: [absent(undescribed)],
    formula: '1',
    source: 'common practice, no source',
    inputs: {},
    assumes: `the liquid free of gas (volume factor 1): ${undescribed} is not given`,
    compute: () => 1,
  });
}

export const GAS_AT_INTAKE: readonly ValueDeclaration[] = [
  declareValue({
    id: 'fluid.standing_bubble_point',
    title: 'bubble point by the correlation',
    kind: 'pressure',
    formula: '18.2·[(GOR/γ_g)^0.83·10^(0.00091·T − 0.0125·API) − 1.4]',
    source: STANDING,
    inputs: {
      gasOilRatio: entry('fluid.gas_oil_ratio'),
      temperature: entry('reservoir.temperature'),
      oil: value('fluid.oil_density'),
      gasGravity: entry('fluid.gas_gravity'),
    },
    compute: ({ gasOilRatio, temperature, oil, gasGravity }) =>
      standingBubblePoint(gasOilRatio, temperature, apiOf(oil), gasGravity),
  }),
  valueBy('fluid.bubble_point', 'bubble point', 'pressure', [
    method({
      formula: 'as entered, at most the reservoir pressure',
      source: 'the entry itself',
      inputs: { stated: entry('reservoir.bubble_point'), reservoir: optionalEntry('reservoir.pressure') },
      compute: ({ stated, reservoir }) => Math.min(stated, reservoir ?? stated),
    }),
    method({
      when: [absent('reservoir.bubble_point')],
      formula: 'by the correlation',
      source: STANDING,
      inputs: { standing: value('fluid.standing_bubble_point') },
      compute: ({ standing }) => standing,
    }),
  ]),
  declareValue({
    id: 'fluid.solution_gas',
    title: 'gas dissolved at the intake',
    kind: 'gas_oil_ratio',
    formula: 'γ_g·[(p/18.2 + 1.4)·10^(0.0125·API − 0.00091·T)]^1.2048, through the bubble point entered, at most GOR',
    source: STANDING,
    inputs: { ...OIL_AT_INTAKE, pressure: value('intake.pressure') },
    compute: ({ pressure, ...oil }) => dissolvedGas(oil, pressure),
  }),
  declareValue({
    id: 'fluid.oil_volume_factor',
    title: 'volume of the oil at the intake over that at the surface',
    kind: 'plain',
    formula: '0.9759 + 0.00012·[Rs·(γ_g/γ_o)^0.5 + 1.25·T]^1.2',
    source: STANDING,
    inputs: { ...OIL_AT_INTAKE, pressure: value('intake.pressure') },
    compute: ({ pressure, ...oil }) => oilVolume(oil, pressure),
  }),
  declareValue({
    id: 'fluid.gas_volume_factor',
    title: 'volume of the gas at the intake over that at the surface',
    kind: 'plain',
    formula: 'p_sc·z·T/(p·T_sc)',
    source: 'z by Dranchuk and Abou-Kassem 1975 with pseudo-critical values by Sutton 1985',
    inputs: {
      pressure: value('intake.pressure'),
      temperature: value('intake.temperature'),
      gasGravity: entry('fluid.gas_gravity'),
    },
    without: 'the compressibility does not converge there',
    compute: ({ pressure, temperature, gasGravity }) => gasVolumeFactor(pressure, temperature, gasGravity),
  }),
  valueBy('fluid.volume_factor', 'volume of the liquid at the intake over that at the surface', 'plain', [
    method({
      formula: '(1 − WC)·Bo + WC',
      source: 'volume balance, water volume factor 1',
      inputs: { waterCut: entry('fluid.water_cut', 'water_cut'), oilVolume: value('fluid.oil_volume_factor') },
      compute: (seen) => (1 - seen.waterCut) * seen.oilVolume + seen.waterCut,
    }),
    ...['fluid.oil_gravity', 'fluid.gas_oil_ratio', 'fluid.gas_gravity'].map(liquidWithoutGas),
  ]),
  declareValue({
    id: 'fluid.free_gas_fraction',
    title: 'free gas in what enters the pump',
    kind: 'ratio',
    formula: 'q_g/(q_g + q_l), q_g = q_o·(GOR − Rs)·Bg·(1 − separation), q_l = q_o·Bo + q_w',
    source: 'volume balance at the intake',
    inputs: STREAM,
    compute: (stream) => freeGas(stream).fraction,
  }),
  declareValue({
    id: 'fluid.gas_interference',
    title: 'gas interference, stable below 1',
    kind: 'plain',
    when: [ROTARY],
    formula: '2000·(q_g/q_l)/(3·p), p in psi absolute',
    source: 'Turpin, Lea and Bearden 1986 (from memory)',
    inputs: { ...STREAM, pressure: value('intake.pressure') },
    compute: ({ pressure, ...stream }) => turpin(freeGas(stream).perLiquid, pressure),
  }),
];
